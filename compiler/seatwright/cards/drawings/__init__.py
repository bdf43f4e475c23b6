"""The drawings of the cards: what they promise to the rest of the room.

Each is made from a plan, or is None where the job does not give what it would be drawn from; `svg` writes it as one
self-contained inline SVG. The SVG is as wide and as high in millimetres as it says, to a scale of ISO 5455, no
wider than half a sheet, so that no paper shrinks it, and has a bar to check the printer by. Black on white, lettering
3.3 high (9.4 points), no colour, no script, no id, no style element, nothing loaded; text of the job is escaped;
figures go through `seatwright.cards.parts.figures`. Lines are those of ISO 128, dimensions those of ISO 129. A figure
that the plan lacks is left out of a drawing, never made up. The same plan gives the same bytes.
"""
