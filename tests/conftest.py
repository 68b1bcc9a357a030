"""Whatever the tests run works its answers out, and keeps none in the folders of whoever runs them."""

import os

os.environ["RIGLINT_AFRESH"] = "1"  # tests/remembered/ takes it away again
