"""The package as its users and their tools see it: what importing costs, types, documentation, threads."""

import doctest
import inspect
import re
import shutil
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import loadworthy as lw
import pytest
from conftest import EXAMPLES, ROOT

PACKAGE = Path(lw.__file__).parent
COTTAGE = EXAMPLES / "cottage.toml"
ALLOWED = Path(__file__).with_name("stubtest-allowed.txt")


def run(*words, **more):
    done = subprocess.run([sys.executable, *words], capture_output=True, text=True, check=False, **more)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_importing_reads_little():
    # What of the standard library takes longest to read is read when it is first needed.
    late = ["decimal", "enum", "json", "re", "typing", "dataclasses", "html", "pint", "loadworthy._site"]
    program = f"import sys, loadworthy; print([name for name in {late!r} if name in sys.modules])"
    assert run("-S", "-c", f"import sys; sys.path.insert(0, {str(PACKAGE.parent)!r}); {program}").strip() == "[]"


def test_every_name_is_there_and_documented():
    assert sorted(lw.__all__) == lw.__all__ == sorted(dir(lw))
    for name in lw.__all__:
        assert getattr(lw, name).__doc__, name
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = lw.no_such_name


@pytest.mark.parametrize("name", ["Finding", "Gap", "Place", "Problem", "Question", "Step"])
def test_help_says_what_a_part_of_a_report_holds(name):
    part = getattr(lw, name)
    said = re.findall(r"^    (\w+): ", inspect.cleandoc(part.__doc__), re.MULTILINE)
    assert sorted(said) == sorted(part.__slots__)


def documented():
    from loadworthy import _pint, _site

    for name in lw.__all__:
        thing = getattr(lw, name)
        yield name, thing.__doc__
        if inspect.isclass(thing):
            for inner, member in vars(thing).items():
                if isinstance(getattr(member, "__doc__", None), str) and not isinstance(member, str):
                    yield f"{name}.{inner}", member.__doc__
    yield "loadworthy", lw.__doc__
    yield "_pint.text", _pint.text.__doc__
    yield "Site", _site.Site.__doc__


def test_every_example_in_the_documentation_is_true():
    parser, runner, examples = doctest.DocTestParser(), doctest.DocTestRunner(), 0
    from loadworthy import _pint

    for name, text in documented():
        test = parser.get_doctest(inspect.cleandoc(text), {"text": _pint.text}, name, None, 0)
        examples += len(test.examples)
        said = []
        runner.run(test, out=said.append)
        assert not said, "".join(said)
    assert examples > 40


def test_the_readme_of_the_package_is_true():
    text = (ROOT / "python" / "README.md").read_text(encoding="utf-8")
    test = doctest.DocTestParser().get_doctest(text, {"SITE": str(EXAMPLES / "cottage.toml")}, "README", None, 0)
    assert len(test.examples) > 8
    said = []
    doctest.DocTestRunner().run(test, out=said.append)
    assert not said, "".join(said)


def test_the_readme_of_the_project_runs(tmp_path):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    programs = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    assert programs
    for program in programs:
        assert run("-c", program, cwd=ROOT)


def test_the_types_are_strict_and_true(tmp_path):
    run("-m", "mypy", "--strict", "--python-version", "3.10", "--cache-dir", str(tmp_path), "-p", "loadworthy")
    run("-m", "mypy.stubtest", "loadworthy", "--allowlist", str(ALLOWED))


USER = """
from decimal import Decimal
import loadworthy as lw

answer = lw.ampacity(size=lw.WireSize("8 AWG"), material="copper", insulation="THHN", ambient="104 °F")
value: Decimal | None = answer.value
steps: list[str] = [step.what for step in answer.derivation]
report: lw.Report = lw.check({"site": {"name": "shed"}})
outcomes: list[lw.Outcome] = [finding.outcome for finding in report.findings.where(outcome=lw.Outcome.FAILS)]
pair = lw.voltage_drop(segment=["12 AWG copper, 50 ft, 16 A"])
"""


def test_a_users_program_is_typed(tmp_path):
    program = tmp_path / "program.py"
    program.write_text(USER, encoding="utf-8")
    words = ["-m", "mypy", "--strict", "--python-version", "3.10", "--cache-dir", str(tmp_path / "cache")]
    run(*words, str(program))
    for wrong in ("ambient=30.5", "size=None, colour=1", 'segment="x"'):
        program.write_text(f"import loadworthy as lw\nlw.ampacity({wrong})\n", encoding="utf-8")
        done = subprocess.run([sys.executable, *words, str(program)], capture_output=True, text=True, check=False)
        assert done.returncode == 1, done.stdout


def other_pythons():
    """Pythons of other versions that are at hand: on the path, or where pyenv keeps them."""
    named = [shutil.which(f"python3.{minor}") for minor in range(10, 20)]
    kept = sorted(Path.home().glob(".pyenv/versions/3.*/bin/python3"))
    versions = {}
    for python in [*filter(None, named), *map(str, kept)]:
        said = subprocess.run([python, "-c", VERSION], capture_output=True, text=True, check=False)
        if said.returncode == 0 and said.stdout.strip() and said.stdout != f"{sys.version_info[1]}\n":
            versions.setdefault(said.stdout.strip(), python)
    return versions


VERSION = "import sys; print(sys.version_info[1] if sys.version_info >= (3, 10) and sys.maxsize > 2**32 else '')"

ANYWHERE = """
import pickle, sys
sys.path.insert(0, sys.argv[1])
import loadworthy as lw
from loadworthy.spreadsheet import results
answer = lw.ampacity(size="8 AWG", material="copper", insulation="THHN", ambient="104 °F", terminals="75 °C")
print(pickle.loads(pickle.dumps(answer)), answer.derivation, lw.Amperes("16 A"), lw.WireSize("8 AWG"))
report = lw.check(sys.argv[2])
print(report.to_json(), report._repr_html_(), lw.plan(sys.argv[2]).text, lw.sequence(sys.argv[2]).checklist())
heading = ["material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]
print(results([heading, ["copper", "12 AWG", "THWN-2", 16.1, 0, 20, "other"]]))
for wrong in (lambda: lw.Site.parse("[site"), lambda: lw.Amperes(1.5), lambda: lw.ampacity(size="8")):
    try:
        wrong()
    except lw.Error as error:
        print(type(error).__mro__, error)
"""


def test_one_wheel_serves_every_python_that_is_at_hand():
    pythons = other_pythons()
    if not pythons:
        pytest.skip("no Python of another version from 3.10 on is at hand")
    words = ["-c", ANYWHERE, str(PACKAGE.parent), str(COTTAGE)]
    here = run("-S", *words)
    assert "50 A" in here
    for version, python in pythons.items():
        done = subprocess.run([python, "-S", *words], capture_output=True, text=True, check=False)
        assert (done.stdout, done.stderr) == (here, ""), version


def test_threads_agree():
    ambient = [f"{degrees} °C" for degrees in range(10, 60)]

    def ask(one):
        answer = lw.ampacity(size="8 AWG", material="copper", insulation="THHN", ambient=one)
        return answer.value, answer.figures, answer.to_json()

    alone = [ask(one) for one in ambient]
    shared = lw.ampacity(size="8 AWG", material="copper", insulation="THHN")
    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(ask, ambient * 8)) == alone * 8
        assert len({str(steps) for steps in pool.map(lambda _: shared.derivation, range(64))}) == 1


def test_sites_are_judged_in_parallel_by_threads():
    site = lw.Site.load(EXAMPLES / "cottage.toml")
    pages = {site.check().to_json(), site.plan().to_json(), site.sequence().to_json()}

    def judge(_):
        return {site.check().to_json(), site.plan().to_json(), site.sequence().to_json()}

    with ThreadPoolExecutor(8) as pool:
        assert all(found == pages for found in pool.map(judge, range(32)))


def test_the_lock_is_released_while_a_site_is_judged():
    """Another thread runs while the switching orders of a site are searched."""
    site = lw.Site.load(EXAMPLES / "cottage.toml")
    done, ticks = threading.Event(), []

    def search():
        for _ in range(100):
            site.sequence()
        done.set()

    # With so long a turn, this thread could tick during the search only if the lock was given up in it.
    turn = sys.getswitchinterval()
    sys.setswitchinterval(100)
    try:
        thread = threading.Thread(target=search)
        thread.start()
        while not done.is_set():
            time.sleep(0.0002)
            ticks.append(not done.is_set())
        thread.join()
    finally:
        sys.setswitchinterval(turn)
    assert any(ticks)
