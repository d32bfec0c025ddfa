"""What the keeper may set for labels; some of it also for one enclosure or animal."""

from __future__ import annotations

from warmside.api import Setting

UNSET = "empty until the keeper fills it in [keeper's own]"
GRID = "a sheet of 24 labels is in wide use [common practice, no source]"
ALL_LINES = "empty: all lines of the kind, none of other plugins [keeper's own]"
PER_SUBJECT = ("species", "enclosure", "animal")
PER_ENCLOSURE = ("enclosure",)

SETTINGS = (
    Setting("stock", "the label stock in use; see: warmside labels stocks", "a4-3x8", GRID),
    Setting(
        "sign_stock",
        "the stock for signs, which say much; empty: a quarter of the paper in use",
        "",
        "a quarter of the sheet that is in the printer [common practice, no source]",
    ),
    Setting("stocks_file", "a TOML file with stocks of your own", "", UNSET),
    Setting("profile", "the printer profile in use; see: warmside labels calibrate", "", UNSET),
    Setting(
        "url_prefix",
        "a web address before the code in each QR, such as https://example.org/; in capitals the"
        " QR stays smaller",
        "",
        UNSET,
        check="warmside.plugins.labels.content.codes:settable_prefix",
    ),
    Setting("contact", "whom to call, on cards, signs and strips", "", UNSET, per=PER_SUBJECT),
    Setting("vet", "the vet's line on animal cards", "", UNSET, per=PER_SUBJECT),
    Setting("licence", "the licence line on hazard signs", "", UNSET, per=PER_ENCLOSURE),
    Setting("do_nots", "what no sitter may do, parted by semicolons", "", UNSET, per=PER_ENCLOSURE),
    *(
        Setting(f"{kind}_lines", f"lines on {what}, by key, with commas", "", ALL_LINES)
        for kind, what in (
            ("enclosure", "enclosure labels"),
            ("animal", "animal cards"),
            ("door", "quarantine signs"),
            ("hazard", "hazard signs"),
            ("sitter", "sitters' strips"),
        )
    ),
)
