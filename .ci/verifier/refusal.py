"""What a proof is refused with."""


class Refused(Exception):
    """The proof does not hold, or is not one."""

    def __init__(self, reason, line=None, claim=""):
        super().__init__(reason)
        self.reason, self.line, self.claim = reason, line, claim

    def __str__(self):
        where = f"line {self.line}: " if self.line is not None else ""
        return f"refused: {where}{self.claim + ': ' if self.claim else ''}{self.reason}"


def require(condition, reason, line=None):
    if not condition:
        raise Refused(reason, line)
