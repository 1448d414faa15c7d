"""Drawings, work packet and templates: what the plan says, set on paper."""
