"""A wet wall's day: how warm each face gets, how fast it dries, when and with how much water it is wetted."""
