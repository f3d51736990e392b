"""One run of a command: every fault gathered before anything is written, then files whole, then what is printed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TypeVar

from valvegeo import streams
from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import speak, unit
from valvegeo.findings.refusal import BadInput
from valvegeo.records.files.build_file import Build, read_build
from valvegeo.records.files.outputs import output_faults
from valvegeo.records.files.whole import write_whole

Read = TypeVar("Read")


class Run:
    """One run of a command.

    Parameters
    ----------
    inputs, outputs : iterable of Path or None
        Files to be read and files to be written; None where an option was not given.
    workbooks : iterable of Path or None
        Those of the outputs that are workbooks.
    units : {"in", "mm"}, optional
        In which lengths on the command line are given and lengths are told; left out, the build's own.
    """

    def __init__(
        self,
        inputs: Iterable[Path | None],
        outputs: Iterable[Path | None],
        workbooks: Iterable[Path | None] = (),
        units: str | None = None,
    ) -> None:
        self.inputs, written, books = ([path for path in of if path is not None] for of in (inputs, outputs, workbooks))
        self._of_outputs = output_faults(written, self.inputs, books)
        self._faults: list[Finding] = []
        self._units = units
        speak(units or unit())

    def tried(self, read: Callable[[], Read]) -> Read | None:
        """Try to read or answer something.

        Parameters
        ----------
        read : callable
            Gives it, or raises BadInput.

        Returns
        -------
        object or None
            None where it is faulty; the faults are kept.
        """
        try:
            return read()
        except BadInput as bad:
            self._faults += bad.faults
            if bad.units and self._units is None:
                speak(bad.units)
            return None

    def build(self, path: Path) -> Build | None:
        """Try to read a build file, and speak its unit from here on unless another was asked for.

        Parameters
        ----------
        path : Path

        Returns
        -------
        Build or None
            None where it is faulty; the faults are kept.
        """
        build = self.tried(lambda: read_build(path))
        if build is not None:
            speak(self._units or build.unit, typed_in=build.unit)
        return build

    def blame(self, faults: Iterable[Finding]) -> None:
        """Keep further faults."""
        self._faults += faults

    @property
    def is_sound(self) -> bool:
        """Whether nothing at all was found at fault so far."""
        return not self._faults and not self._of_outputs

    def sound(self, answer: Read | None) -> Read:
        """Give an answer back, if nothing at all was found at fault.

        Raises
        ------
        BadInput
            With every fault so far: those of the input files in their order, of the command line, of the outputs.
        """
        places = [str(path) for path in self.inputs]
        of_inputs = sorted(
            self._faults, key=lambda fault: places.index(fault.file) if fault.file in places else len(places)
        )
        faults = [*of_inputs, *self._of_outputs]
        if faults or answer is None:
            raise BadInput(faults)
        return answer

    def deliver(self, contents: Sequence[tuple[Path | None, Callable[[], str | bytes]]], printed: str) -> None:
        """Write the files, then print: a reader that leaves early (``| head``) must not cost the files.

        Standard output that is closed from the start is refused before anything is written.

        Parameters
        ----------
        contents : sequence of (Path or None, callable)
            Each file, and what makes its text, or its bytes where it is a workbook; passed over where there is no file.
        printed : str
            What goes to standard output.
        """
        streams.refuse_if_unheard()
        written = {path: make() for path, make in contents if path is not None}
        with streams.held():
            write_whole(written, self.inputs)
            if written:
                streams.files_written()
        streams.say(printed)
