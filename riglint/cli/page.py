"""`riglint page`: builds the page that runs riglint in a browser."""

from __future__ import annotations

import argparse
from pathlib import Path

from riglint.cli.call.options import whole_number
from riglint.cli.call.output import put_out
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, refusal

ABOUT = (
    "Builds a folder of static files for any web space: the whole audit in a browser, offline once it has been opened. "
    "Needs npm and a package index while it builds. Nothing that is typed into the page leaves the device."
)
MOST_PORT = 65535


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    page = commands.add_parser("page", help="build the page that audits rigs in a browser", description=ABOUT)
    page.add_argument(
        "folder", type=Path, metavar="DIR", help="folder for the page; new, empty or built before"
    )
    page.add_argument(
        "--library",
        type=Path,
        default=None,
        metavar="FOLDER",
        help="rigs, spots, gear lists and policies to put in",
    )
    page.add_argument("--serve", action="store_true", help="then open it on this machine's own address")
    page.add_argument(
        "--port", type=_port, default=0, metavar="N", help="port for --serve; standard: a free one"
    )
    page.set_defaults(run=_run)


def _port(text: str) -> int:
    port = whole_number(text, 0, MOST_PORT)
    if port is None:
        raise argparse.ArgumentTypeError(f"'{text}' is not a port. Write a whole number up to {MOST_PORT}.")
    return port


def _run(call: argparse.Namespace) -> int:
    from riglint.page.build import build_page  # noqa: PLC0415 - only this command pays for it
    from riglint.page.materials import MissingPartError  # noqa: PLC0415

    try:
        built = build_page(call.folder, call.library)
    except MissingPartError as error:
        raise StopError(str(error), NOT_DONE) from error
    except OSError as error:
        raise StopError(
            f"The page cannot be written to {call.folder}: {refusal(error)}.", NOT_DONE
        ) from error
    shared = f", with {built.shared} files of your library" if call.library is not None else ""
    put_out(
        f"Built {call.folder.as_posix()}: {built.files} files, {built.size_bytes / 1e6:.1f} MB{shared}.\n"
    )
    return _serve(call) if call.serve else 0


def _serve(call: argparse.Namespace) -> int:
    from riglint.page.serving import server_of  # noqa: PLC0415

    try:
        server = server_of(call.folder, call.port)
    except OSError as error:
        raise StopError(f"Port {call.port} cannot be opened: {refusal(error)}.", CALL_WRONG) from error
    with server:
        put_out(
            f"Open http://127.0.0.1:{server.server_port}/ in a browser on this machine. Ctrl+C ends it.\n"
        )
        server.serve_forever()
    return 0
