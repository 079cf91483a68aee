"""What was released stays marked and stays readable: samples of every draw, and each release's own bank.

`python -m bitepoint.releases` is the developers' command; docs/changelog.md says what each release changed.
"""
