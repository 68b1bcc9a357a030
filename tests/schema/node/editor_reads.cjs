// Reads YAML documents as a schema-driven editor does (YAML 1.2) and checks each against its schema.
// Reads {"keywords": [...], "schemas": {name: schema}, "documents": [{"schema": name, "text": ...}]} from standard
// input; writes [true or false, ...]: whether the schema takes the document.
const Ajv = require("ajv");
const YAML = require("yaml");

const asked = JSON.parse(require("fs").readFileSync(0, "utf8"));
const compiled = {};
for (const [name, schema] of Object.entries(asked.schemas)) {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true });
  ajv.addVocabulary(asked.keywords);
  compiled[name] = ajv.compile(schema);
}
const answers = asked.documents.map(({ schema, text }) => {
  const read = YAML.parseDocument(text);
  return read.errors.length === 0 && compiled[schema](read.toJS());
});
process.stdout.write(JSON.stringify(answers));
