"""A plan as text: plan.json as a build writes it, lines to read, a figure as cards print it."""
