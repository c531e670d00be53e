"""What the head and the model of a file say: plain records, no rules."""
from dataclasses import dataclass, field


@dataclass
class Body:
    id: int
    parent: int
    kind: str
    name: str
    axis: tuple = (0.0, 0.0, 0.0)
    pin: tuple = (0.0, 0.0, 0.0)
    link: int = -1
    line: int = 0


@dataclass
class Link:
    a: int
    b: int
    pin_a: tuple
    pin_b: tuple


@dataclass
class Part:
    body: int
    vertices: list
    name: str


@dataclass
class Step:
    id: int
    kind: str
    name: str
    drives: dict = field(default_factory=dict)
    absent: list = None
    present: list = None
    roll: tuple = None          # ("carry"|"tip", its words)
    line: int = 0


@dataclass
class Carrier:
    id: int
    bodies: list = field(default_factory=list)
    links: list = field(default_factory=list)
    runs: set = field(default_factory=set)
    parts: list = field(default_factory=list)
    pinned: set = field(default_factory=set)
    seams: set = field(default_factory=set)
    steps: list = field(default_factory=list)
    geometry: object = None     # joints.Chain, once the bodies are complete

    def first_strip(self):
        return next((s for s in self.steps if s.kind == "strip"), None)


@dataclass
class Solid:
    zone: str
    kind: str
    scenes: str
    vertices: list


@dataclass
class Place:
    id: int
    carrier: Carrier
    shift: float
    name: str
    twins: list = field(default_factory=list)
    solids: list = field(default_factory=list)
    faces: dict = field(default_factory=dict)    # (solid, part) -> UNTIL
    lands: dict = field(default_factory=dict)    # (solid, part) -> FROM
    stands: set = field(default_factory=set)
    rolls: set = field(default_factory=set)
    steps: list = field(default_factory=list)    # its roll steps

    def names(self):
        return [self.name] + self.twins

    def all_steps(self):
        return self.carrier.steps + self.steps

    def scene(self, step):
        """Ids of the solids that stand while the step lasts."""
        letter = {"strip": "s", "end": "s", "raise": "r", "roll": "a"}[step.kind]
        return [i for i, s in enumerate(self.solids) if letter in s.scenes]

    def may_touch(self, step):
        """part -> set of solids that it may touch in this step."""
        pairs = set()
        if step.kind == "strip":
            pairs |= {k for k, until in self.faces.items() if step.id <= until}
        if step.kind == "raise":
            pairs |= {k for k, since in self.lands.items() if step.id >= since}
        pairs |= self.rolls if step.kind == "roll" else self.stands
        by_part = {}
        for solid, part in pairs:
            by_part.setdefault(part, set()).add(solid)
        return by_part


@dataclass
class File:
    inputs: list = field(default_factory=list)
    result: str = None
    scope: str = None
    zones: dict = field(default_factory=dict)
    carriers: list = field(default_factory=list)
    places: list = field(default_factory=list)
