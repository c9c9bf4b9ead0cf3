"""QR symbols and label sheets, to PDF: the only place that knows a PDF library."""
