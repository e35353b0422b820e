"""Files of the page "fit" to take home: 3-D file, templates at full size, measuring sheet."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from drybuild.session import Session
from drybuild.workbench.desk import Desk
from drybuild.workbench.files import download

if TYPE_CHECKING:
    from drybuild.present.template import Template

PDF = "application/pdf"
NOT_HERE = 404
Write = Callable[["Template", Session, Path], None]


def model(request: Request) -> Response:
    """Send the engine in its bay as a binary glTF file."""
    from drybuild.present.packaging_meshes import drawn_solids  # noqa: PLC0415  only when asked
    from drybuild.present.packaging_model import model_bytes  # noqa: PLC0415  likewise

    session = _session(request)
    solids = drawn_solids(session.evaluation, far=True)
    if not any(one.moving for one in solids):
        return PlainTextResponse("There is no engine to draw in this bay.", NOT_HERE)
    return download(model_bytes(solids, session.build.name), "bay.glb", "model/gltf-binary")


def measuring_sheet(request: Request) -> Response:
    """Send the sheet that shows where to put the tape."""
    from drybuild.book.pdf import write_pdf  # noqa: PLC0415  loads the setter
    from drybuild.book.tape import tape_book  # noqa: PLC0415  likewise

    session = _session(request)
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "tape.pdf"
        write_pdf(tape_book(session), target)
        return download(target.read_bytes(), target.name, PDF)


def _tiles(template: Template, session: Session, target: Path) -> None:
    from drybuild.book.template import write_tiles  # noqa: PLC0415  loads the setter

    paper = "letter" if session.build.units == "us" else "a4"
    write_tiles(template, session.build.name, paper, target)


def _whole(template: Template, session: Session, target: Path) -> None:
    from drybuild.book.template import write_whole  # noqa: PLC0415  loads the setter

    write_whole(template, session.build.name, target)


def _flat(template: Template, session: Session, target: Path) -> None:
    from drybuild.present.template_dxf import write_dxf  # noqa: PLC0415  loads the writer

    write_dxf(template, target)


def _template(name: str, write: Write, media: str) -> Callable[[Request], Response]:
    def send(request: Request) -> Response:
        from drybuild.present.template import ENGINE, template_of  # noqa: PLC0415  only when asked

        session = _session(request)
        template = template_of(session.evaluation, request.query_params.get("part", ENGINE))
        if template is None:
            return PlainTextResponse("There is no such part in this bay.", NOT_HERE)
        with tempfile.TemporaryDirectory() as folder:
            target = Path(folder) / name
            write(template, session, target)
            return download(target.read_bytes(), name, media)

    return send


def _session(request: Request) -> Session:
    """Return a session of its own on the desk's build, so that no page waits for it."""
    desk: Desk = request.app.state.desk
    desk.refresh()
    session = Session(desk.build, desk.place, desk.samples, desk.session.graph)
    session.evaluation.between = desk.lock.make_way
    return session


ROUTES = (
    Route("/fit/bay.glb", model),
    Route("/fit/tape.pdf", measuring_sheet),
    Route("/fit/template.pdf", _template("template.pdf", _tiles, PDF)),
    Route("/fit/template-whole.pdf", _template("template-whole.pdf", _whole, PDF)),
    Route("/fit/template.dxf", _template("template.dxf", _flat, "image/vnd.dxf")),
)
