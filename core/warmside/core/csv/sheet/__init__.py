"""Looking at a sheet that nobody mapped: where its table is, and what its cells mean.

Pure: grids of text in, beliefs and tidy rows out.
"""
