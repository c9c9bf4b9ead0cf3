"""The one way in which Filmrack says no."""


class Refused(Exception):
    """Something that cannot be meant or done; nothing was changed.

    The message is one sentence for a person: what was refused, why, and what to do.
    """


class FileTrouble(Exception):
    """The darkroom file itself cannot be used: missing, not ours, damaged, newer, not writable.

    The message is one sentence for a person: what is wrong with which file, and the way back.
    """
