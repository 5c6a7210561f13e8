"""How each mix is charged into the mixer, batch by batch."""
