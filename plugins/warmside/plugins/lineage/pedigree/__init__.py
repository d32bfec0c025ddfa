"""The layout of a drawn pedigree: generations, places in them, lines of families."""
