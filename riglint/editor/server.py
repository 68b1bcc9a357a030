"""The server itself: listens to what an editor opens and changes, audits after a short pause, and answers."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import BinaryIO

from lsprotocol import types
from pygls import uris
from pygls.lsp.server import LanguageServer

from riglint import __version__
from riglint.editor.answers import diagnostics, fixes, hover
from riglint.editor.completing import completions
from riglint.editor.open_files import Audited, Judging, OpenFiles
from riglint.policy import DEFAULT, InForce
from riglint.read.library import real
from riglint.reports.audit.text import policy_lines
from riglint.reports.layout.spans import WIDEST, characters, paragraph
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.words import CAUTION_TEXT

PAUSE_S = 0.25  # after the last key, before an audit begins


class RigServer(LanguageServer):
    """The files that one editor has open. Texts come whole: a rig is a few kB, and no count of lines can differ."""

    def __init__(self, judging: Judging) -> None:
        super().__init__("riglint", __version__, types.TextDocumentSyncKind.Full)
        self.open_files = OpenFiles(judging)
        self.asked_to_end = False
        self.due: set[Path] = set()
        self._timer: asyncio.TimerHandle | None = None
        self._at_work = asyncio.Lock()
        self._tasks: set[asyncio.Task[None]] = set()
        self._shown: dict[Path, list[types.Diagnostic]] = {}
        self._told: dict[Path, str] = {}  # of each library, what its mark file sets

    def units(self, text: str) -> int:
        """Return how many units the editor counts for a text."""
        count: int = self.workspace.position_codec.client_num_units(text)
        return count

    def touch(self, file: Path, pause_s: float = PAUSE_S) -> None:
        """Note that a file is not what it was; an audit follows once nothing more comes for a while."""
        self.due |= self.open_files.touched_by(file)
        if self._timer is not None:
            self._timer.cancel()
        self._timer = asyncio.get_running_loop().call_later(pause_s, self._begin)

    def _begin(self) -> None:
        task = asyncio.get_running_loop().create_task(self._work())
        self._tasks.add(task)
        task.add_done_callback(self._ended)

    def _ended(self, task: asyncio.Task[None]) -> None:
        self._tasks.discard(task)
        error = None if task.cancelled() else task.exception()
        if error is not None:
            message = f"riglint could not show what it found: {type(error).__name__}: {error}"
            self.window_show_message(types.ShowMessageParams(types.MessageType.Error, message))

    async def _work(self) -> None:
        """Audit what is due, beside the conversation with the editor, and show it."""
        loop = asyncio.get_running_loop()
        async with self._at_work:
            due, self.due = self.due & self.open_files.texts.keys(), set()
            for file in sorted(due):
                texts = dict(self.open_files.texts)
                if file not in texts:
                    continue  # closed meanwhile
                found = await loop.run_in_executor(self.thread_pool, self.open_files.audited, file, texts)
                self._keep(file, found)
                self._tell_settings(self.open_files.library(file), found.force)
            self._show(due)

    def _keep(self, file: Path, found: Audited) -> None:
        if self.open_files.texts.get(file) == found.text:  # else a newer text is due already
            self.open_files.audits[file] = found

    def _tell_settings(self, library: Path, force: InForce) -> None:
        """Say what a library sets, once and whenever it changes; what it loosens is put before the person."""
        said = "\n".join(settings_in_words(force))
        if said == self._told.get(library, ""):
            return
        self._told[library] = said
        loosened = self.open_files.judging.force is None and any(one.loosens for one in force.changes)
        said = said or f"The library {library.name} sets nothing any more."
        self.window_log_message(types.LogMessageParams(types.MessageType.Info, said))
        if loosened:
            self.window_show_message(types.ShowMessageParams(types.MessageType.Warning, said))

    def _show(self, due: set[Path]) -> None:
        """Tell the editor what stands in each file, where that is new or was asked for."""
        for file in sorted(self.open_files.files() | self._shown.keys() | due):
            found = diagnostics(self.open_files, file, self.units)
            if file in due or self._shown.get(file, []) != found:
                published = types.PublishDiagnosticsParams(self.open_files.uri(file), found)
                self.text_document_publish_diagnostics(published)
            self._shown[file] = found
        self._shown = {file: found for file, found in self._shown.items() if found}

    def opened(self, uri: str, text: str, pause_s: float) -> None:
        """Take a text as the editor holds it now."""
        file = path_of(uri)
        if file is not None:
            self.open_files.texts[file], self.open_files.uris[file] = text, uri
            self.touch(file, pause_s)

    def closed(self, uri: str) -> None:
        """Forget a text: what refers to the file reads it from the disk again."""
        file = path_of(uri)
        if file is not None and file in self.open_files.texts:
            del self.open_files.texts[file]
            self.open_files.audits.pop(file, None)
            self.touch(file, 0.0)


def path_of(uri: str) -> Path | None:
    """Return the whole path of a file that an editor names; None for what is no file."""
    path = uris.to_fs_path(uri)
    return real(Path(path)) if path else None


def serve(judging: Judging, incoming: BinaryIO, outgoing: BinaryIO) -> bool:
    """Serve one editor until it ends the conversation; return whether it did so as the protocol asks."""
    server = RigServer(judging)
    _greet(server)
    _listen(server)
    _answer(server)
    server.start_io(incoming, outgoing)
    return server.asked_to_end


def _foot(force: InForce) -> str:
    """Return what stands at the foot of every report: what a policy changes, and the caution."""
    return characters([*policy_lines(force, WIDEST), *paragraph(CAUTION_TEXT, WIDEST)]).rstrip()


def _greet(server: RigServer) -> None:
    @server.feature(types.INITIALIZED)
    def begun(_: types.InitializedParams) -> None:
        named = server.open_files.judging.force
        force = DEFAULT if named is None else named
        foot = types.LogMessageParams(types.MessageType.Info, _foot(force))
        server.window_log_message(foot)
        if any(one.loosens for one in force.changes):  # nobody may miss that
            server.window_show_message(types.ShowMessageParams(types.MessageType.Warning, _foot(force)))

    @server.feature(types.SHUTDOWN)
    def ending(_: None) -> None:
        server.asked_to_end = True


def _listen(server: RigServer) -> None:
    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def opened(given: types.DidOpenTextDocumentParams) -> None:
        server.opened(given.text_document.uri, given.text_document.text, 0.0)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def changed(given: types.DidChangeTextDocumentParams) -> None:
        uri = given.text_document.uri
        server.opened(uri, server.workspace.get_text_document(uri).source, PAUSE_S)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    def saved(given: types.DidSaveTextDocumentParams) -> None:
        file = path_of(given.text_document.uri)
        if file is not None:
            server.touch(file, 0.0)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def closed(given: types.DidCloseTextDocumentParams) -> None:
        server.closed(given.text_document.uri)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def changed_outside(given: types.DidChangeWatchedFilesParams) -> None:
        for file in filter(None, (path_of(one.uri) for one in given.changes)):
            server.touch(file)


def _answer(server: RigServer) -> None:
    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def explain(given: types.HoverParams) -> types.Hover | None:
        file = path_of(given.text_document.uri)
        return hover(server.open_files, file, given.position, server.units) if file else None

    asked_by = types.CompletionOptions(trigger_characters=[" ", ":", "-", "[", "{", ",", "/"])

    @server.feature(types.TEXT_DOCUMENT_COMPLETION, asked_by)
    def complete(given: types.CompletionParams) -> types.CompletionList | None:
        file = path_of(given.text_document.uri)
        return completions(server.open_files, file, given.position, server.units) if file else None

    options = types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, options)
    def offer(given: types.CodeActionParams) -> list[types.CodeAction]:
        file = path_of(given.text_document.uri)
        return fixes(server.open_files, file, given.range, server.units) if file else []
