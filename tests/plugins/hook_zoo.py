"""Plugins for the hooks beside furniture: sound ones, and for each hook every kind that does not keep to it."""

import time
from dataclasses import replace

from scantling.kit import (
    INTERFACE,
    Board,
    Check,
    Code,
    Exporter,
    Finding,
    FinishSystem,
    Price,
    PriceList,
    Screws,
    Severity,
    Sheet,
    StockList,
    hook,
)

SHEET = Sheet("birch 18", "birch-plywood", 18, 2440, 1220, "74.00", least=17.2, most=18.2)
BOARD = Board("pine", "spruce-pine-fir", 38, 89, 2440, "4.60")
BOX = Screws("8 x 1-1/2", 8, 38.1, 100, "9.00")
STOCK = StockList("yard", "Yard", "What the yard sells.", (SHEET,), (BOARD,), (BOX,), "USD")
PRICES = PriceList("yard", "Yard", "What the yard takes.", "USD", (Price("14.00", kind="glue", pack=473, unit="mL"),))
CODE = Code("heavier-than-liked", "Heavier than liked", "It is heavier than the household likes.", "Make it smaller.")
FINISH = FinishSystem(
    "soap", "Soap", "Soap flakes in water.", "oil", 2, 8, 10, 4, 24, 6, ("indoors",), "common practice"
)


def heavy(inspection):
    mass, _ = inspection.assembly.mass_and_centre()
    if mass > 1:
        yield Finding(CODE.code, Severity.NOTE, f"The piece weighs {mass:.1f} kg.", value=mass, limit=1.0, unit="kg")


CHECK = Check("weight", "Weight", "What the household likes to carry.", (CODE,), heavy)
EXPORTER = Exporter("txt", "text/x-cut-list", "Parts by name", lambda export: export.name.encode())


def answering(*, interface=INTERFACE, **answers):
    """Return a plugin object whose hooks answer what is given, by the hook's name."""
    members = {"interface": interface}
    for name, answer in answers.items():
        members[name] = _hook(name, answer)
    return type("Plugin", (), members)()


def _hook(name, answer):
    def implementation(self, context):
        return answer(context) if callable(answer) and not isinstance(answer, type) else answer

    implementation.__name__ = name
    return hook(implementation)


def stock(**changes):
    return answering(stock=[replace(STOCK, **changes)])


def prices(**changes):
    return answering(price_lists=[replace(PRICES, **changes)])


def check(**changes):
    return answering(checks=[replace(CHECK, **changes)])


def exporter(**changes):
    return answering(exporters=[replace(EXPORTER, **changes)])


def finish(**changes):
    return answering(finishes=[replace(FINISH, **changes)])


def endless(one):
    while True:
        yield one


# What each plugin does wrong, and words that the reason holds.
BAD = [
    (answering(stock=7), "stock answered a int, not a list of StockList"),
    (answering(stock=[SHEET]), "stock gave a Sheet, which is no StockList"),
    (answering(stock=lambda context: endless(STOCK)), "stock answered more than 50 entries"),
    (answering(stock=[STOCK, STOCK]), "two stock lists with the id 'yard'"),
    (stock(id="The Yard"), "the id of a stock list is 'The Yard'"),
    (stock(title=""), "stock list 'yard': title is ''"),
    (stock(sheets=(), boards=(), screws=()), "stock list 'yard' is empty"),
    (stock(sheets=(replace(SHEET, material="unobtainium"),)), "'unobtainium', which no table knows"),
    (stock(sheets=(replace(SHEET, thickness=-18),)), "thickness in mm is -18"),
    (stock(sheets=(replace(SHEET, length=float("nan")),)), "length in mm is nan"),
    (stock(sheets=(replace(SHEET, least=18.1, most=18.4),)), "does not lie in 18.1 to 18.4"),
    (stock(sheets=(replace(SHEET, most=None),)), "least and most of the thickness go together"),
    (stock(sheets=(replace(SHEET, price=74.0),)), "price: "),
    (stock(sheets=(SHEET, SHEET)), "two entries with the id 'birch 18'"),
    (stock(screws=(replace(BOX, gauge=99),)), "there is no gauge 99"),
    (stock(currency=None), "currency: "),
    (answering(price_lists="cheap"), "price_lists answered a str"),
    (prices(currency="dollars"), "currency: "),
    (prices(prices=(Price("1.00"),)), "give either id or kind"),
    (prices(prices=(Price("1.00", kind="gold"),)), "'gold' is not offered"),
    (prices(prices=(Price("-1", kind="glue"),)), "price list 'yard', prices 0 price: "),
    (answering(checks=[heavy]), "checks gave a function, which is no Check"),
    (check(look="at it"), "look is a str, not a function"),
    (check(codes=()), "declares no code"),
    (check(codes=(CODE, CODE)), "the finding code 'heavier-than-liked' is also one of check 'weight'"),
    (check(codes=(replace(CODE, code="Heavy"),)), "the code 'Heavy' is not kebab-case"),
    (check(codes=(replace(CODE, code="parts-overlap"),)), "'parts-overlap' is the service's own"),
    (check(codes=(replace(CODE, severity="note"),)), "severity is a str, not a Severity"),
    (answering(exporters={"md": EXPORTER}), "exporters answered a dict"),
    (exporter(format="TXT"), "the format of a exporter is 'TXT'"),
    (exporter(media_type="text"), "media_type is 'text'"),
    (exporter(write=None), "write is a NoneType, not a function"),
    (exporter(kinds=("nesting",)), "kinds is ('nesting',)"),
    (exporter(format="csv"), "its format 'csv' is the service's own"),
    (exporter(media_type="application/pdf"), "its media type 'application/pdf' is the service's own"),
    (finish(kind="lacquer"), "of the kind 'lacquer'"),
    (finish(coats=1.5), "coats is 1.5, not a whole number"),
    (finish(least=10, most=8), "most is below least"),
    (finish(recoat_hours=-1), "recoat_hours is -1"),
    (finish(exposures=("garden",)), "exposures is ('garden',)"),
    (finish(source=""), "source is ''"),
]


def lies(inspection):
    yield Finding("parts-overlap", Severity.ERROR, "A code that is not its own.")


def mutates(inspection):
    inspection.assembly.parts.popitem()
    return ()


def clears(inspection):
    inspection.assembly.findings.clear()
    return ()


def raises(inspection):
    raise KeyError("no such cupboard")


def leaves(inspection):
    raise SystemExit(3)


def hangs(inspection):
    while True:
        time.sleep(0.01)


def stubborn(inspection):
    """Hang, and swallow whatever tries to stop it."""
    while True:
        try:
            time.sleep(0.01)
        except BaseException:  # noqa: S112 - this is the misbehaviour
            continue


def rubbish(inspection):
    return "it is fine"


def floods(inspection):
    return endless(Finding(CODE.code, Severity.NOTE, "Again."))


def shouts(inspection):
    yield Finding(CODE.code, Severity.NOTE, "!" * 5_000)


def prints(inspection):
    print("looking")
    return heavy(inspection)


# What a check does wrong, and words of the finding that stands for it.
BAD_CHECKS = [
    (lies, "found 'parts-overlap'; its codes are heavier-than-liked"),
    (mutates, "changed the piece it was handed"),
    (raises, "raised KeyError"),
    (leaves, "raised SystemExit"),
    (hangs, "took longer than 0.3 seconds"),
    (rubbish, "answered a str, not a list of Finding"),
    (floods, "answered more than 100 entries"),
    (shouts, "no text of at most 1000 characters"),
]
