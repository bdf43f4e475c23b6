"""From a Source to its tree, and a message for every line that cannot be understood."""

from __future__ import annotations

from seatwright.syntax.reading.lines import Typed, take_apart
from seatwright.syntax.reading.sections import FileReader
from seatwright.syntax.tree import Comment, File
from seatwright.syntax.vocabulary import Vocabulary
from seatwright.text import Message, Source, in_order


def parse(source: Source, vocabulary: Vocabulary) -> tuple[File, tuple[Message, ...]]:
    """The lines of a file sorted into sections, each word and figure with its place, and what is wrong by itself.

    Reported here is what no field has to be known for: the words that open lines, headers, the number of cells,
    texts, and figures that make no sense anywhere. What a field wants is for the declarations to say. Each mistake
    has one message; a line with one is marked and not read any further. Raises nothing, whatever the text.
    """
    reader = FileReader(source, vocabulary)
    waiting: Typed | None = None
    for number, text in enumerate(source.text.split("\n"), 1):
        line = take_apart(source, number, text)
        if isinstance(line, Typed):
            if waiting is not None:
                reader.read(waiting, line)
            waiting = line
        elif isinstance(line, Comment):
            reader.comments.append(line)
    if waiting is not None:
        reader.read(waiting)
    return reader.file(), in_order(reader.messages)
