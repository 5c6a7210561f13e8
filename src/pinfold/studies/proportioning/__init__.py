"""From a wish to a mix: each family by its published method, with its ranges, departures and rivals."""
