"""`seatwright editor`: a language server on standard input and output, which reads files and writes none."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from seatwright.commands.disk import files, job_folders
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.saying import complain
from seatwright.text.showing import visible


def editor() -> Exit:
    """Serve the editor that started this process, until it ends."""
    try:
        from seatwright.editor.server import serve_editor
    except ModuleNotFoundError as problem:
        complain("editor", f"this needs the extra seatwright[editor]: {problem.name} is not installed")
        return Exit.WRONG_USE
    from seatwright.commands.jobs.warming import warm_planning

    warm_planning()
    return Exit.DONE if serve_editor(EditorDisk(), _read, _Out()) == 0 else Exit.ERRORS


class EditorDisk:
    """The files beside and below a job, as every command comes by them."""

    def contents(self, place: Path) -> bytes:
        """What stands in a plain file."""
        return files.plain_bytes(place)

    def beside(self, home: Path, name: str) -> Path:
        """Where a file of a job's folder stands."""
        return files.beside(home, name)

    def shown(self, name: str) -> str:
        """Its name, nothing in it that a terminal would obey."""
        return visible(name)

    def truly(self, place: Path) -> Path:
        """Where it stands in truth."""
        return files.real(place)

    def jobs_in(self, folder: Path) -> tuple[Path, ...]:
        """The jobs of a folder."""
        return tuple(Path(job) for job in job_folders.jobs_of([str(folder)]))


class _Out:
    """Standard output, byte for byte."""

    def write(self, data: bytes) -> None:
        view = memoryview(data)
        while view:
            view = view[os.write(sys.stdout.fileno(), view) :]

    def close(self) -> None:
        pass


def _read(most: int) -> bytes:
    return os.read(sys.stdin.fileno(), most)
