"""What people do: one function per act, each one transaction, each returning what happened."""
