"""One way to write a line of JSON: names in order, no spaces; of plain values it is the canonical line."""

import json

json_line = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode
