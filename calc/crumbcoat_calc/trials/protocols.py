"""How each test of a finished batch is run, and the grid to fill in by pen.

Where there is a published method, its source is named; the others are common practice, and say so on the sheet. No
figure here is a limit that a batch passes or fails.
"""

from dataclasses import dataclass

from crumbcoat_calc.tables import citations, public_source

HEIGHTS = ("height 1, mm", "height 2, mm", "height 3, mm")
HEIGHT_LOST = "`height_lost`: the height at the start less the height now, mean of the three, in mm."
WEEPING = "`weeping`: how wide the wet ring on the paper is, from the edge of the frosting, in mm."
AGAIN = "At each time below, measure again, and take the same picture."
SHOTS = "Take a picture from the side, beside a ruler, always from the same place."


@dataclass(frozen=True, slots=True, kw_only=True)
class Protocol:
    """A sheet for one kind of test: what is needed, how it is run, and the heads of its columns and rows.

    `groups` is how often the columns after the first are repeated, each time under a blank for a code; `copies` is how
    often the grid is printed, to be cut apart. `entry` is what goes into the trial file, with blanks. `eaten` says that
    people taste what is tested.
    """

    key: str
    title: str
    question: str
    equipment: str
    pieces: str
    conditions: str
    steps: tuple[str, ...]
    measure: tuple[str, ...]
    stop: str
    columns: tuple[str, ...]
    rows: tuple[str, ...]
    entry: str
    sources: tuple[str, ...] = ("common-practice",)
    groups: int = 1
    copies: int = 1
    eaten: bool = False

    @property
    def source_text(self) -> str:
        """The works that it is from."""
        return "; ".join([public_source(citations()[key]) for key in self.sources])


def numbers(count: int) -> tuple[str, ...]:
    """Heads of rows for people, groups or rosettes."""
    return tuple(map(str, range(1, count + 1)))


PROTOCOLS = (
    Protocol(
        key="keeping",
        title="Keeping test",
        question="How long does it keep its shape and its water in the cold?",
        equipment="Refrigerator with a thermometer in it, plate with a cover, star tube, ring of 4 cm, filter paper, "
        "scale, ruler, camera.",
        pieces="Three rosettes from the same tube, and 20 g in the ring on filter paper.",
        conditions="5 °C, covered. Write down what the thermometer in the refrigerator shows, each time.",
        steps=(
            "Pipe the rosettes onto the plate. Fill the ring on the paper, and lift it off.",
            f"Measure the height of each rosette. {SHOTS}",
            "Cover the plate, and put it where the thermometer is.",
            AGAIN,
        ),
        measure=(WEEPING, HEIGHT_LOST),
        stop="At the first time when you would not serve it any more. If it is still good at the end, it held.",
        columns=("time", "date, hour", "°C", "wet ring, mm", *HEIGHTS, "what you see"),
        rows=("start", "1 h", "4 h", "1 day", "2 days", "3 days", "4 days", "5 days"),
        entry="- {test: keeping, where: in the refrigerator, temperature: ___ °C, time: ___, weeping: ___ mm, "
        "height_lost: ___ mm, did: ___}",
    ),
    Protocol(
        key="piping",
        title="Piping test",
        question="How many rosettes have sharp edges before a warm hand softens the bag?",
        equipment="Piping bag, star tube (write down its size), probe thermometer, clock, baking paper.",
        pieces="One bag, filled with the same mass each time, such as 200 g.",
        conditions="A room at 20 to 22 °C. The same hand in each test.",
        steps=(
            "Measure the temperature of the frosting, then fill the bag.",
            "Pipe a rosette every 20 seconds, in rows of five. Keep the bag in your hand all the time.",
            "Measure the temperature in the bag after every fifth one.",
            "Three people mark the edges, each alone, from 1 (none) to 5 (sharp). Count breaks and air holes.",
        ),
        measure=(
            "`temperature`: that of the frosting as it was piped, in °C.",
            "`rosettes`: how many were piped until they softened.",
        ),
        stop="At the first rosette whose edges run together; it does not count. If the bag is empty before, it held.",
        columns=("rosette", "clock", "°C in the bag", "edges, a", "edges, b", "edges, c", "breaks", "air holes"),
        rows=("1", "5", "10", "15", "20", "25", "30"),
        entry="- {test: piping, temperature: ___ °C, rosettes: ___, did: ___}",
    ),
    Protocol(
        key="warm-shelf",
        title="Warm-shelf test",
        question="Does it hold its shape in a warm room?",
        equipment="Cupboard or switched-off oven that keeps its temperature, thermometer with a hygrometer, probe "
        "thermometer, star tube, plate, ruler, camera.",
        pieces="Three rosettes from the same tube, and a fourth one for the probe.",
        conditions="One temperature at a time, such as 25 °C; new rosettes for the next one, such as 30 °C.",
        steps=(
            "Wait until the shelf has kept its temperature for 10 minutes.",
            f"Measure the height of each rosette, and the temperature in the fourth. {SHOTS}",
            "Put the plate on the shelf, and start the clock.",
            f"{AGAIN} Close the door at once.",
        ),
        measure=(
            "`temperature`: that of the shelf, in °C.",
            HEIGHT_LOST,
        ),
        stop="After 2 hours; before that, when all three have slumped, wept or split.",
        columns=("time", "shelf, °C", "humidity, %", "rosette, °C", *HEIGHTS, "what you see"),
        rows=("start", "30 min", "1 h", "1 h 30 min", "2 h"),
        entry="- {test: holding, where: on a warm shelf, temperature: ___ °C, time: ___, height_lost: ___ mm, "
        "did: ___}",
    ),
    Protocol(
        key="sun",
        title="Sun test",
        question="How long does it hold on a table in the sun?",
        equipment="White plate, thermometer, probe thermometer, star tube, ruler, camera, clock.",
        pieces="Three rosettes from the same tube, a fourth one for the probe, and three of a batch that you know.",
        conditions="Full sun, no wind. The sun is never the same twice: compare only with the batch beside it.",
        steps=(
            "Measure the air in the shade. Write down the hour, and whether there are clouds.",
            f"Measure the height of each rosette, and the temperature in the fourth. {SHOTS}",
            "Put both batches into the sun at the same time, and start the clock.",
            AGAIN,
        ),
        measure=(
            "`temperature`: that of the air in the shade, in °C.",
            HEIGHT_LOST,
        ),
        stop="After 1 hour; before that, when all three have slumped, wept or split.",
        columns=("time", "shade, °C", "rosette, °C", *HEIGHTS, "what you see", "the batch you know"),
        rows=("start", "5 min", "10 min", "15 min", "20 min", "25 min", "30 min", "45 min", "1 h"),
        entry="- {test: holding, where: on a table in the sun, temperature: ___ °C, time: ___, "
        "height_lost: ___ mm, did: ___}",
    ),
    Protocol(
        key="freezing",
        title="Freezing and thawing",
        question="Does it come back as it was after the freezer?",
        equipment="Freezer with a thermometer in it, box with a lid, filter paper, ring of 4 cm, scale, star tube, "
        "ruler, camera.",
        pieces="Three rosettes in the box, 20 g in the ring on filter paper, and enough in a tub to pipe again.",
        conditions="−18 °C or colder for a night and a day; then a night in the refrigerator, covered.",
        steps=(
            f"Measure the height of each rosette. {SHOTS}",
            "Close the box, and freeze it. Thaw it in the refrigerator, on its paper.",
            "Do not pour off what runs out and weigh that: a starch gel that has gone spongy takes it in again, and "
            "you would measure too little. What the paper took up stays in it.",
            "Measure, and pipe a rosette from the tub. Freeze it again, if you want to know more.",
        ),
        measure=(
            "`time`: how long it was in the freezer.",
            WEEPING,
        ),
        stop="After three rounds; before that, when it has split or cannot be piped again.",
        columns=("round", "in, date, hour", "freezer, °C", "out, date, hour", "wet ring, mm", "height lost, mm",
                 "piped again, 1 to 5", "what you see"),
        rows=("before", "1", "2", "3"),
        entry="- {test: freezing, where: in the freezer, temperature: ___ °C, time: ___, weeping: ___ mm, "
        "height_lost: ___ mm, did: ___}",
        sources=("common-practice", "charoenrein-2008"),
    ),
    Protocol(
        key="tasting",
        title="Tasting: for the one who serves",
        question="Which one is liked, and how do people find it?",
        equipment="Small cups with codes, spoons, water, plain crackers, a ballot for each person.",
        pieces="15 to 20 g of each sample for each person, up to three samples.",
        conditions="Samples at 20 to 22 °C. In a class at least 12 people; a claim about what is liked needs "
        "50 or more.",
        steps=(
            "Give each sample a code of three digits, and write here, and nowhere else, which is which.",
            "Serve them in another order to each person, so that each sample comes first equally often.",
            "Water and a cracker between two samples, and a minute of rest. Nobody talks.",
            "Copy the marks from the ballots: liking from 1 to 9, anything else from 1 to 5.",
        ),
        measure=(
            "`marks`: one for each person, in the order of this table.",
            "`scale`: 9 for liking, 5 for everything else.",
        ),
        stop="After three samples: people get tired of sweet things.",
        columns=("person", "liking", "______", "______"),
        rows=numbers(12),
        entry="- {attribute: liking, scale: 9, marks: [___, ___], code: ___}",
        sources=("hedonic-scale", "common-practice"),
        groups=3,
        eaten=True,
    ),
    Protocol(
        key="ballot",
        title="Tasting: ballots",
        question="Two ballots, to be cut apart: one for each person.",
        equipment="",
        pieces="",
        conditions="",
        steps=(),
        measure=(),
        stop="",
        columns=("How is it?", "code ______", "code ______", "code ______"),
        rows=(
            "Liking, 1 to 9: 1 dislike extremely, 5 neither like nor dislike, 9 like extremely",
            "Sweet, 1 to 5: 1 not at all, 5 very",
            "Greasy, 1 to 5: 1 not at all, 5 very",
            "Smooth, 1 to 5: 1 not at all, 5 very",
            "______, 1 to 5: 1 not at all, 5 very",
        ),
        entry="",
        sources=("hedonic-scale", "common-practice"),
        copies=2,
        eaten=True,
    ),
    Protocol(
        key="class",
        title="Results of all groups",
        question="How far do groups differ that made the same?",
        equipment="The weigh sheet and the sheets of tests of each group.",
        pieces="One batch in each group, all planned the same way.",
        conditions="The same ingredients from the same packs, the same instruments, the same test.",
        steps=(
            "Write the results of each group into its row, and what was measured into the head of each column.",
            "Mean: the sum of a column, divided by the number of groups.",
            "Spread: the highest number less the lowest one.",
        ),
        measure=(
            "Each group has a trial file with `who: group 1` and so on; `crumbcoat trial-results` makes this table, "
            "with the standard deviation.",
        ),
        stop="",
        columns=("group", "mixed, °C", "cup, g", "______", "______", "______", "______", "liking"),
        rows=(*numbers(8), "mean", "spread"),
        entry="",
        eaten=True,
    ),
)  # fmt: skip
"""The sheets, in the order in which they are printed; the triangle test is drawn up in `triangle.py`.

Source:
    named in each of them. Tests of shape, weeping and piping are common practice without a published source.
"""
