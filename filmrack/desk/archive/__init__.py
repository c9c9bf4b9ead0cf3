"""The screen Archive: sleeves, sheets, binders, loans and terms."""
