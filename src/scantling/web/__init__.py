"""The web face: one page for a maker, served to this computer only. It works nothing out; it shows."""
