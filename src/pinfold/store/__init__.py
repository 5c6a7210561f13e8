"""Files: the plan, prices, pile and samples; read with every complaint at once, written whole or not at all."""
