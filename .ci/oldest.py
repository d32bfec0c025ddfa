"""Print the oldest allowed version of each runtime dependency, as constraints for pip."""

import re
import tomllib
from pathlib import Path

project = tomllib.loads(Path("pyproject.toml").read_text(encoding="utf-8"))["project"]
for requirement in project["dependencies"]:
    name, least = re.match(r"([a-z0-9-]+)>=([0-9.]+)", requirement).groups()
    print(f"{name}=={least}")
