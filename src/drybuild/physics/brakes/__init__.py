"""Brakes from foot to road: actuation, friction, balance, stopping, heat, parking.

Belongs here: the published sums. Does not: what is typical, what a law asks.
To add a kind of brake, give its brake factor in ``friction.py``; nothing else needs to know.
"""
