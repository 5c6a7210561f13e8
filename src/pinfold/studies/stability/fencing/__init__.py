"""Fences in detail: sections and wood, sockets and anchors, deflection, braces, rails, wires and ties."""
