"""Moist air: vapour, humidity at other temperatures, dew point, water that evaporates."""
