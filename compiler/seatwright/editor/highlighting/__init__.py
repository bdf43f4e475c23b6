"""Colours without a server: grammars for editors, made of the declarations."""
