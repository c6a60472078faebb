"""Results as pictures: pure functions from plain frozen inputs to SVG.

Nothing here knows any page: each picture states its own small input, and whoever has a result
fills it in. For the brakes, `brake_places` and `brake_results` do so from the system and its
answers; nothing else here knows the model of the car. A picture carries classes of the style
sheet, never a style attribute, and a full sentence for those who cannot see it. The hatches,
ribbons, marks and silhouettes that pictures refer to stand once on a page: `definitions`.
"""
