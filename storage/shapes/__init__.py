"""The same record in other shapes beside the PDF: a page for browsers and readers, and the schedules as a table."""
