"""Seasons: the air of a room through the year, and what it does to each part."""
