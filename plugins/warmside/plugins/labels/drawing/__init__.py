"""Laid out labels and the calibration page as PDF; pure, bytes come out."""
