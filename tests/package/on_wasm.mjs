// Runs riglint's command line on the Python of the page: [runtime, packages, folder, ...arguments]; says what it printed.
import { pathToFileURL } from "node:url";

const [runtime, site, folder, ...given] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${runtime}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${runtime}/` });
python.mountNodeFS("/site", site);
python.mountNodeFS("/club", folder);
python.globals.set("given", python.toPy(given));
const said = python.runPython(`
import contextlib, io, json, os, sys
sys.path.insert(0, "/site")
os.chdir("/club")
from riglint.cli import main
out = io.StringIO()
with contextlib.redirect_stdout(out):
    status = main(list(given))
json.dumps([sys.version_info[:2], status, out.getvalue()])
`);
process.stdout.write(said, () => process.exit(0));
