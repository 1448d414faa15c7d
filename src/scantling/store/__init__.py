"""Records kept between runs: pieces with every version, what was done at the bench, and the timber at hand.

It knows texts, names and figures, and no geometry; the two faces use it, and nothing below them does.
"""
