"""The package beside the command that was built: two doors, one engine."""

import subprocess
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parents[3]
EXAMPLES = ROOT / "core" / "examples"

# The same questions in every run; a run of the command takes its time on a busy machine.
settings.register_profile(
    "same", derandomize=True, deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("same")


@pytest.fixture(scope="session")
def command(built):
    """Runs the command that was built; gives its status, its output and what it complains of."""

    def running(*arguments, stdin=None):
        run = subprocess.run([built, *arguments], input=stdin, capture_output=True, check=False)
        return run.returncode, run.stdout.decode(), run.stderr.decode()

    return running


@pytest.fixture(scope="session")
def sites(tmp_path_factory):
    """Every site that the project carries as an example or in a case, as files."""
    folder = tmp_path_factory.mktemp("sites")
    paths = sorted(EXAMPLES.glob("*.toml"))
    for path in sorted((ROOT / "tests" / "cases").glob("*.toml")):
        cases = tomllib.loads(path.read_text(encoding="utf-8"))
        for case in cases["case"]:
            text = case.get("site", cases.get("site", ""))
            for before, after in case.get("change", []):
                text = text.replace(before, after, 1)
            site = folder / f"{path.stem}-{case['name']}.toml"
            site.write_text(text, encoding="utf-8")
            paths.append(site)
    assert len(paths) > 300
    return paths
