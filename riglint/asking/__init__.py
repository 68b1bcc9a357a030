"""Questions that lead to a rig file: what is asked, how an answer is read, and the document that the answers make.

Data and pure functions: no terminal, no files, so that a page can ask the same questions.
"""

from riglint.asking.answers import AnswerError, Answers, read_answer
from riglint.asking.gear_list import GearList
from riglint.asking.question import Blank, Question
from riglint.asking.questions import GEAR, QUESTIONS, place, relevant, waiting
from riglint.asking.writing.rig_document import Document, rig_document
from riglint.asking.writing.rig_text import rig_text

__all__ = [
    "GEAR",
    "QUESTIONS",
    "AnswerError",
    "Answers",
    "Blank",
    "Document",
    "GearList",
    "Question",
    "place",
    "read_answer",
    "relevant",
    "rig_document",
    "rig_text",
    "waiting",
]
