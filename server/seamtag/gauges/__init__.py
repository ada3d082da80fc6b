"""Gauges and what their calibration certificates say."""
