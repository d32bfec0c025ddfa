"""The round of a day: tasks and findings of all plugins collected, told, put off, explained."""
