"""Label stocks, the places of a sheet, and the printer's own error; pure plane geometry."""
