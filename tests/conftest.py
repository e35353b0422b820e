"""What every test shares: nothing is kept outside the test's own folders."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

# As the commands have it; tests run side by side.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


@pytest.fixture(autouse=True, scope="session")
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep judged tables in a folder of this run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRYBUILD_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield
