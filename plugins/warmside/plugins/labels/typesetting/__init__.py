"""Text and QR set into one label: faces, scripts, rows, sizes; pure."""
