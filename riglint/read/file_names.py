"""What the name of a file tells: whether it is YAML, marks a library, or hides a rig behind another ending."""

from pathlib import PurePath

from riglint.read.spelling import nearest

GIT, MARK = ".git", "rig-library"
MARKS = (GIT, MARK)
YAML = (".yaml", ".yml")
# What editors put behind a name, and what somebody may take for YAML; copies such as .bak and .orig are left alone.
OTHERWISE = ("", ".txt", ".text", ".json")


def may_be_misnamed(file: PurePath) -> bool:
    """Whether a file of this name may hold a rig: an editor may have saved it as low.yaml.txt."""
    suffix = file.suffix.lower()
    return suffix in OTHERWISE or bool(not suffix.endswith("~") and nearest(suffix, YAML))


def as_yaml(file: PurePath) -> str:
    """Return what such a file should be called."""
    stem = file.with_suffix("") if file.suffix else file
    return (stem if stem.suffix.lower() in YAML else stem.with_name(f"{stem.name}.yaml")).name
