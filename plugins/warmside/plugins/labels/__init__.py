"""Labels, cards and signs that scan: for enclosures, animals, doors, dangers and sitters."""

from warmside.api import Command, Manifest, Setting

UNSET = "empty until the keeper fills it in [keeper's own]"
GRID = "a sheet of 24 labels is in wide use [common practice, no source]"
ALL_LINES = "empty: all lines of the kind, none of other plugins [keeper's own]"

MANIFEST = Manifest(
    name="labels",
    summary="Labels, cards and signs as PDF, with codes that scan",
    hook_level=(2, 0),
    hooks="warmside.plugins.labels.hooks",
    commands=(
        Command(
            "labels", "Labels, cards and signs to print.", "warmside.plugins.labels.commands:app"
        ),
        Command("scan", "Open what a scanner typed.", "warmside.plugins.labels.scanning:app"),
    ),
    settings=(
        Setting("stock", "the label stock in use; see: warmside labels stocks", "a4-3x8", GRID),
        Setting("sign_stock", "the stock for signs, which say much", "a4-2x2", GRID),
        Setting("stocks_file", "a TOML file with stocks of your own", "", UNSET),
        Setting("profile", "the printer profile in use; see: warmside labels calibrate", "", UNSET),
        Setting(
            "url_prefix",
            "a web address before the code in each QR, such as https://example.org/",
            "",
            UNSET,
        ),
        Setting("contact", "whom to call, on cards, signs and strips", "", UNSET),
        Setting("vet", "the vet's line on animal cards", "", UNSET),
        Setting("licence", "the licence line on hazard signs", "", UNSET),
        Setting("do_nots", "what no sitter may do, parted by semicolons", "", UNSET),
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
    ),
    tables="warmside.plugins.labels.tables",
    migrations="warmside.plugins.labels.migrations",
    head="labels0001",
)
