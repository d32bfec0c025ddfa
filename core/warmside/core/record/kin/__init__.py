"""Parents, clutches and broods as they stand in the record."""
