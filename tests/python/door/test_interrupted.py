"""Long work on sites ends when a signal asks for it: Ctrl-C, or one that the program handles itself."""

import signal
import subprocess
import sys
import threading
import tomllib

import loadworthy as lw
import pytest
from conftest import EXAMPLES

#: Work that would take far longer than anybody waits for here.
PATIENCE = 20

CHILD = """
import signal, sys
import loadworthy as lw

class Enough(Exception):
    pass

def enough(*_):
    raise Enough("heard")

if {own}:
    signal.signal(signal.SIGINT, enough)
site = lw.Site.parse(sys.stdin.read())
print("begun", flush=True)
for _ in range(1000):
    {work}
"""


def crowded(circuits):
    """The cottage with more circuits than its source can bear, each with a load of its own: nearly all fails."""
    site = tomllib.loads((EXAMPLES / "cottage-plan.toml").read_text(encoding="utf-8"))
    circuit = next(one for one in site["circuit"] if one["name"] == "lighting circuit")
    load = next(one for one in site["load"] if one["name"] == "lights")
    for number in range(circuits):
        power = 111 + number * 37 % 800
        more = {"name": f"load {number}", "from": f"circuit {number}", "power": f"{power} W", "leg": "AB"[number % 2]}
        site["circuit"].append(circuit | {"name": f"circuit {number}"})
        site["load"].append(load | more | {"priority": 2, "weight": power})
    return site


def interrupted(site, work, own=False):
    """Begins work in a process of its own, sends the signal once it has begun, and gives what it complains of."""
    text = lw.Site.from_dict(site)._bytes.decode()
    command = [sys.executable, "-c", CHILD.format(own=own, work=work)]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, text=True, encoding="utf-8") as child:
        try:
            child.stdin.write(text)
            child.stdin.close()
            assert child.stdout.readline() == "begun\n"
            with pytest.raises(subprocess.TimeoutExpired):
                child.wait(0.3)
            child.send_signal(signal.SIGINT)
            child.wait(PATIENCE)
            return child.stderr.read().strip().splitlines()[-1]
        finally:
            child.kill()


@pytest.mark.skipif(sys.platform == "win32", reason="signals are sent otherwise there")
@pytest.mark.parametrize(
    ("circuits", "work"), [(300, "site.check()"), (300, "lw.size(site)"), (400, "site.plan()"), (50, "site.sequence()")]
)
def test_ctrl_c_ends_the_work(circuits, work):
    assert interrupted(crowded(circuits), work) == "KeyboardInterrupt"


@pytest.mark.skipif(sys.platform == "win32", reason="signals are sent otherwise there")
def test_what_a_handler_of_ones_own_raises_ends_the_work():
    assert interrupted(crowded(300), "site.check()", own=True).endswith("Enough: heard")


def test_another_thread_finishes_its_work():
    """Signals are for the main thread; what others do is done to the end."""
    site, found = lw.Site.from_dict(crowded(20)), []
    thread = threading.Thread(target=lambda: found.extend([site.check(), site.plan(), site.sequence()]))
    thread.start()
    thread.join()
    assert found == [site.check(), site.plan(), site.sequence()]
