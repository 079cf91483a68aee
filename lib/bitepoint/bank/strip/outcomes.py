"""Lesson 5, strip-down and inspection: outcomes that its exercises share."""

ORDERS = "Takes gearbox and clutch out in a safe order"
UNDOES = "Undoes highly loaded bolts safely"
READS = "Looks at each bare part and says what it shows"
DECIDES = "Decides for each part: reuse, replace, or stop and ask"
