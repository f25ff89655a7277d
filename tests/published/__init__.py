"""Figures as printed elsewhere, each with its source; below is what is held where.

ranges of procedure and welder (QW-451.1, QW-452.1(b), QW-452.3, QW-322, D17.1) `test_qualification_tables`; changes
that want a new record (QW-404.5, QW-404.14, QW-408.9, QW-408.10) `test_essential_variables`; imperfections
`test_iso_5817`; colours and argon `test_colours_and_gas`; energy of the arc `test_heat_input_pages`, `test_melfi_2010`;
gas on the backside and a record without blanks `test_navsea_278`; where to measure `test_iso_13916`; heats and wire
`test_compositions`; eyes, air and rooms `test_osha`; water in gas `test_frost_point_table`.
"""
