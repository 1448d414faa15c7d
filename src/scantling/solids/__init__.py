"""Parts as solids: light meshes for pictures and volumes, exact bodies for drawings and exchange.

Both kernels are fed from one description, :class:`~scantling.solids.shape.PartShape`. Nothing here is
imported at package level: the exact kernel takes a second to load, and few questions need it.
"""
