"""Editors of other people with the settings of the guide: what they show, offer and change.

Outside references: Neovim, Emacs with Eglot and Vim with ALE, each with its own client of the Language Server Protocol,
and the YAML language server. They are Debian packages (neovim; emacs-nox and elpa-eglot; vim and vim-ale) and an npm
package. Where one is not installed, its test is skipped.
"""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.read.file_names import MARK
from tests.editor.client import CHECKOUT, DAY
from tests.schema.node_programs import LanguageServer

GUIDE = (CHECKOUT / "examples/guides/editors.md").read_text(encoding="utf-8")
ALE, ELPA = Path("/usr/share/vim-ale"), Path("/usr/share/emacs/site-lisp/elpa")
LONGEST_S = 120

NEOVIM = """
local function say(about, what) io.stdout:write(vim.json and vim.json.encode({about, what}) or "", "\\n") end
vim.cmd("edit rigs/low-line.yaml")
vim.bo.filetype = "yaml"
vim.wait(60000, function() return #vim.diagnostic.get(0) > 0 end, 100)
for _, one in ipairs(vim.diagnostic.get(0)) do say("finding", one.message) end
local function ask(method, line, column, more)
  local place = { textDocument = vim.lsp.util.make_text_document_params() }
  place.position = { line = line, character = column }
  for _, one in pairs(vim.lsp.buf_request_sync(0, method, vim.tbl_extend("force", place, more or {}), 30000)) do
    return one.result
  end
end
say("hover", ask("textDocument/hover", 2, 6).contents.value)
vim.api.nvim_buf_set_lines(0, 30, 30, false, { "  - {part: sling, gear: " })
vim.wait(300)
for _, item in ipairs(ask("textDocument/completion", 30, 24).items) do say("offered", item.label) end
vim.cmd("edit! faulty/slackrope.yaml")
vim.bo.filetype = "yaml"
vim.wait(60000, function() return #vim.diagnostic.get(0) > 0 end, 100)
local last = vim.api.nvim_buf_line_count(0)
local range = { start = { line = 0, character = 0 }, ["end"] = { line = last, character = 0 } }
local actions = ask("textDocument/codeAction", 0, 0, { range = range, context = { diagnostics = {} } })
local before = vim.api.nvim_buf_get_lines(0, 0, -1, false)
vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
local after = vim.api.nvim_buf_get_lines(0, 0, -1, false)
for n, line in ipairs(after) do if line ~= before[n] then say("changed", line) end end
vim.cmd("qa!")
"""
EMACS = """
(dolist (one (file-expand-wildcards "@ELPA@/*")) (add-to-list 'load-path one))
(define-derived-mode yaml-mode text-mode "YAML")
(add-to-list 'auto-mode-alist '("\\\\.ya?ml\\\\'" . yaml-mode))
(setq eglot-sync-connect t)
@SETTINGS@
(defun say (about what) (princ (concat (json-encode (list about what)) "\\n")))
(find-file "rigs/low-line.yaml")
(call-interactively #'eglot)
(let ((n 0)) (while (and (< n 300) (null (flymake-diagnostics))) (accept-process-output nil 0.1) (setq n (1+ n))))
(dolist (one (flymake-diagnostics)) (say "finding" (flymake-diagnostic-text one)))
(goto-char (point-min))
(search-forward "use: low")
(let ((found (jsonrpc-request (eglot--current-server-or-lose) :textDocument/hover (eglot--TextDocumentPositionParams))))
  (say "hover" (plist-get (plist-get found :contents) :value)))
(search-forward "gear: RS-2")
(delete-char -4)
(dolist (one (all-completions "" (nth 2 (eglot-completion-at-point)))) (say "offered" (substring-no-properties one)))
(insert "RS-2")
(goto-char (point-min))
(search-forward "orchard.yaml")
(replace-match "orchrd.yaml")
(let ((n 0) (actions nil))
  (while (and (< n 300) (null actions))
    (accept-process-output nil 0.1)
    (setq n (1+ n) actions (eglot-code-actions (line-beginning-position) (line-end-position) "quickfix")))
  (eglot--apply-workspace-edit (plist-get (aref (vconcat actions) 0) :edit)))
(say "changed" (buffer-substring-no-properties (line-beginning-position) (line-end-position)))
(set-buffer-modified-p nil)
(kill-emacs 0)
"""
VIM = r"""
set nocompatible noswapfile
set rtp+=@ALE@
runtime! plugin/ale.vim
filetype plugin on
@SETTINGS@
edit rigs/low-line.yaml
set filetype=yaml
call ale#Queue(0)
let n = 0
while n < 600 && len(ale#engine#GetLoclist(bufnr(''))) == 0
  sleep 100m
  let n += 1
endwhile
let said = map(copy(ale#engine#GetLoclist(bufnr(''))), '["finding", v:val.text]')
let g:ale_hover_to_preview = 1
call cursor(3, 6)
ALEHover
let n = 0
while n < 300 && len(filter(range(1, winnr('$')), 'getwinvar(v:val, "&previewwindow")')) == 0
  sleep 100m
  let n += 1
endwhile
wincmd P
call add(said, ['hover', getline(1)])
wincmd p
call setline(36, '    gear: ')
call cursor(36, 1)
call feedkeys("A\<C-x>\<C-o>", 'tx')
call add(said, ['offered', getline(36)])
edit! rigs/low-line.yaml
call setline(5, 'spot: ../spots/orchrd.yaml')
call cursor(5, 10)
call ale#Queue(0)
let n = 0
while n < 300 && match(map(copy(ale#engine#GetLoclist(bufnr(''))), 'v:val.text'), 'orchrd') < 0
  sleep 100m
  let n += 1
endwhile
call feedkeys("1\<CR>", 't')
ALECodeAction
let n = 0
while n < 300 && getline(5) =~ 'orchrd'
  sleep 100m
  let n += 1
endwhile
call add(said, ['changed', getline(5)])
call writefile(map(said, 'json_encode(v:val)'), 'said.txt')
qa!
"""


def settings(language: str, holding: str = "") -> str:
    """Return the settings that the guide shows in a language; of several, those that hold a word."""
    blocks = re.findall(rf"^```{language}\n(.*?)^```$", GUIDE, re.MULTILINE | re.DOTALL)
    (found,) = [one for one in blocks if holding in one]
    return str(found)


def run(library: Path, call: list[str]) -> list[tuple[str, str]]:
    """Run an editor in a library with a `riglint` of this checkout on its path; return what it was made to say."""
    programs = library.parent / "bin"
    programs.mkdir()
    script = programs / "riglint"
    script.write_text(
        f'#!/bin/sh\nexec "{sys.executable}" -m riglint "$@" {" ".join(DAY)}\n', encoding="utf-8"
    )
    script.chmod(0o755)
    path = os.pathsep.join([str(programs), os.environ["PATH"]])
    env = {
        **os.environ,
        "PATH": path,
        "PYTHONPATH": str(CHECKOUT),
        "HOME": str(library.parent),
        "TERM": "xterm",
    }
    ran = subprocess.run(
        call,
        cwd=library,
        env=env,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        timeout=LONGEST_S,
        check=False,
    )
    written = library / "said.txt"
    said = (written.read_bytes() if written.exists() else ran.stdout + b"\n" + ran.stderr).decode(
        "utf-8", "replace"
    )
    lines = [line for line in said.splitlines() if line.startswith('["')]
    assert lines, said
    return [(about, what) for about, what in map(json.loads, lines)]


def of(said: list[tuple[str, str]], about: str) -> list[str]:
    return [what for which, what in said if which == about]


def needs(program: str, *more: Path) -> None:
    if shutil.which(program) is None or not all(path.exists() for path in more):
        pytest.skip(f"{program} is not installed, or not its part that speaks to language servers")


@pytest.fixture
def found(library: Path, capsys: pytest.CaptureFixture[str]) -> int:
    """How many findings an audit shows in the file of the rig that is opened."""
    main(["audit", str(library / "rigs/low-line.yaml"), *DAY, "--format", "json"])
    files = json.loads(capsys.readouterr().out)["files"]
    every = [one for file in files for one in file["findings"]]
    return len([one for one in every if one["at"]["path"] == "rigs/low-line.yaml"])


def test_neovim(library: Path, found: int) -> None:
    needs("nvim")
    script = library.parent / "try.lua"
    script.write_text(settings("lua") + NEOVIM, encoding="utf-8")
    said = run(library, ["nvim", "--headless", "--clean", "-n", "-c", f"luafile {script}"])
    assert len(of(said, "finding")) == found
    assert of(said, "hover")[0].startswith("**use** – What the line is used for.")
    assert {"RS-1", "RS-2"} <= set(of(said, "offered"))
    assert "SH-1" not in of(said, "offered")
    assert of(said, "changed")


def test_emacs(library: Path, found: int) -> None:
    needs("emacs", *(ELPA.glob("eglot-*") if any(ELPA.glob("eglot-*")) else [ELPA / "eglot"]))
    script = library.parent / "try.el"
    text = EMACS.replace("@ELPA@", str(ELPA)).replace("@SETTINGS@", settings("elisp"))
    script.write_text(text, encoding="utf-8")
    said = run(library, ["emacs", "-Q", "--batch", "-l", str(script)])
    assert len(of(said, "finding")) == found
    assert of(said, "hover")[0].startswith("**use** – What the line is used for.")
    assert {"RS-1", "RS-2"} <= set(of(said, "offered"))
    assert of(said, "changed") == ["spot: ../spots/orchard.yaml"]


def test_vim(library: Path, found: int) -> None:
    needs("vim", ALE)
    needs("script")  # gives it a terminal
    script = library.parent / "try.vim"
    script.write_text(VIM.replace("@ALE@", str(ALE)).replace("@SETTINGS@", settings("vim")), encoding="utf-8")
    said = run(library, ["script", "-qec", f"vim -Nu NONE -S {script}", "/dev/null"])
    assert len(of(said, "finding")) == found
    assert of(said, "hover") == ["**use** – What the line is used for."]
    assert of(said, "offered") == ["    gear: RS-1"]
    assert of(said, "changed") == ["spot: ../spots/orchard.yaml"]


def test_the_settings_for_a_yaml_language_server(library: Path) -> None:
    """Its extension hands `yaml.schemas` to it as they stand, paths from the folder of the workspace."""
    schemas = json.loads(settings("json", "yaml.schemas"))["yaml.schemas"]
    for name, files in schemas.items():
        kind = Path(name).name.partition(".")[0]
        assert main(["schema", kind, "--output", str(library / name)]) == 0
        (pattern,) = files
        mine = sorted(library.glob(pattern))
        assert mine, f"no file of the example library is meant by {pattern}"
        server = LanguageServer(library / name)
        try:
            text = mine[0].read_text(encoding="utf-8")
            assert server.diagnostics(mine[0].as_uri(), text) == []
            said = server.diagnostics((library / "other.yaml").as_uri(), text + "colour: red\n")
            assert [one["message"] for one in said] == ["Property colour is not allowed."]
        finally:
            server.close()


def test_the_settings_that_no_test_tries_are_at_least_whole() -> None:
    server = tomllib.loads(settings("toml"))["language-server"]["riglint"]
    assert [server["command"], *server["args"]] == ["riglint", "serve-editor"]
    kate = json.loads(settings("json", "servers"))["servers"]["yaml"]
    assert kate["command"] == ["riglint", "serve-editor"]
    assert kate["rootIndicationFileNames"] == [MARK]
