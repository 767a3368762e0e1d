"""The order of switching of a site, from Python through the plain C interface; the standard library is all it needs.

    python3 switching.py path/to/libloadworthy.so site.toml
"""

import ctypes as c
import sys


class Text(c.Structure):
    """`lw_str`."""

    _fields_ = [("data", c.c_void_p), ("len", c.c_size_t)]

    def __str__(self):
        return c.string_at(self.data, self.len).decode() if self.data else ""


class Step(c.Structure):
    """`lw_switching_step`."""

    _fields_ = [
        ("struct_size", c.c_size_t),
        ("source", Text),
        ("purpose", c.c_int32),
        ("number", c.c_uint32),
        ("operation", Text),
        ("see", Text),
        ("because", Text),
    ]


PURPOSES = {1: "to connect", 2: "to return", 3: "to disconnect", 4: "to refuel"}
OUTCOMES = {1: "holds", 2: "fails", 3: "cannot tell"}


class Loadworthy:
    def __init__(self, path):
        self.library = c.CDLL(path)

    def call(self, name, *arguments):
        """Calls a function whose last argument is its error, and raises that."""
        error = c.c_void_p()
        status = getattr(self.library, name)(*arguments, c.byref(error))
        if status == 0:
            return
        message = Text()
        self.library.lw_error_message(error, c.byref(message))
        text = str(message)
        self.library.lw_error_free(error)
        raise SystemExit(f"status {status}: {text}")


def main(library, path):
    lw = Loadworthy(library)
    with open(path, "rb") as file:
        document = file.read()
    name = path.encode()
    site, sequence = c.c_void_p(), c.c_void_p()
    size = c.c_size_t
    lw.call("lw_site_parse", name, size(len(name)), document, size(len(document)), c.byref(site))
    lw.call("lw_site_sequence", site, None, c.byref(sequence))
    lw.library.lw_site_free(site)

    outcome, count = c.c_int32(), size()
    lw.call("lw_sequence_outcome", sequence, c.byref(outcome))
    lw.call("lw_sequence_step_count", sequence, c.byref(count))
    print(OUTCOMES[outcome.value])
    purpose = None
    for index in range(count.value):
        step = Step(struct_size=c.sizeof(Step))
        lw.call("lw_sequence_step", sequence, size(index), c.byref(step))
        if step.purpose != purpose:
            purpose = step.purpose
            print(f"{PURPOSES[purpose]}, {step.source}")
        print(f"{step.number:>3}. {step.operation}")
    lw.library.lw_sequence_free(sequence)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        raise SystemExit(__doc__)
    main(sys.argv[1], sys.argv[2])
