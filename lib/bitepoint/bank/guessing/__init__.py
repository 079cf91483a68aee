"""How much of the bank can be guessed without knowing the trade: by length, by hedging words, by place, by "stop and ask".

offers      every choice as it is drawn: its options in their order, and which is right
rules       two rules of thumb: always the longest, always "stop and ask"
guesser     a guesser who is fitted on the other lessons
table       all of it by lesson and by exercise: `python -m bitepoint.bank.guessing [LESSON]`
"""
