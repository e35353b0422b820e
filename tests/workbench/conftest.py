import pytest
from tests.workbench.benches import bench


@pytest.fixture(scope="module", autouse=True)
def _own_cache(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture
def open_bench(tmp_path):
    with bench(tmp_path) as found:
        yield found
