"""Young of a clutch: as they are typed, named, counted, and what is first asked of them. Pure."""
