"""The plugin's tasks of a round: meals, and what is made ready the evening before."""
