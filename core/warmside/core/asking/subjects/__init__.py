"""One animal, clutch, enclosure or plugin told: card, report, history, row of a list."""
