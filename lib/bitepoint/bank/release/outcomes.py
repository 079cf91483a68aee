"""Lesson 10, the release system: its outcomes."""

FOLLOWS = "Follows travel and effort from the pedal to the release bearing"
AIR = "Works out what air in the line costs"
BLEEDS = "Fills and bleeds the release system safely"
FINDS = "Finds why a clutch does not release fully"
DECIDES = "Decides whether the release system is ready"
