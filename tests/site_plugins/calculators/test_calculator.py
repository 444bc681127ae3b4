"""The calculator element in Chromium: from the printed page to live figures, whatever goes wrong on the way."""

import gzip
import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

LIVE = re.compile("live")
HAS_ALL_FILES = """async () => {
  const script = document.querySelector("script[src$='/calculator.js']");
  const { status } = await import(script.src.replace("calculator.js", "client.js"));
  return status.total > 0 && status.loaded === status.total;
}"""


@pytest.fixture
def address(small_site: tuple[Path, str]) -> str:
    return small_site[1]


@pytest.fixture
def fetched(page: Page) -> list[str]:
    """The names of the runtime's files that the page has asked for."""
    asked: list[str] = []
    page.on("request", lambda request: asked.extend(re.findall(r"/runtime/.*/(.+)", request.url)))
    return asked


def element(page: Page):
    return page.locator("recipe-calculator")


def texts(answered: Callable[..., dict], **edit: str) -> dict[str, str]:
    return answered(**edit)["texts"]


def test_an_edit_changes_every_output_and_field(page: Page, address: str, answered: Callable[..., dict]) -> None:
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    expected = texts(answered, factor="2")
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["fat.percent"], timeout=20_000)
    expect(page.locator("[data-text='amount.sugar']")).to_have_text(expected["amount.sugar"])
    expect(page.get_by_label("Cream")).to_have_value(expected["amount.cream"])
    expect(element(page)).to_have_attribute("data-state", "live")
    assert element(page).evaluate("element => element.state") == answered(factor="2")["state"]


def test_it_is_live_on_the_next_page_without_starting_again(
    page: Page, address: str, answered: Callable[..., dict]
) -> None:
    workers = []
    page.on("worker", lambda worker: workers.append(worker))
    page.goto(address)
    page.get_by_label("Batches").fill("3")
    expect(element(page)).to_have_attribute("data-state", LIVE, timeout=20_000)
    page.evaluate("document.visit = 'the same'")
    page.get_by_role("link", name="other", exact=True).last.click()
    expect(page.locator("h1")).to_contain_text("other")
    assert page.evaluate("document.visit") == "the same"
    page.get_by_label("Batches").fill("4")
    expect(page.locator("[data-text='amount.sugar']")).to_have_text(texts(answered, factor="4")["amount.sugar"])
    assert len(workers) == 1


def test_a_wrong_field_says_so_keeps_what_was_typed_and_stops_nothing_else(
    page: Page, address: str, answered: Callable[..., dict]
) -> None:
    page.goto(address)
    page.get_by_label("Batches").fill("none")
    error = answered(factor="none")["error"]
    expect(page.locator("[data-problem=factor]")).to_have_text(f"{error['problem']}: {error['remedy']}", timeout=20_000)
    expect(page.get_by_label("Batches")).to_have_attribute("aria-invalid", "true")
    page.get_by_label("Cream").fill("1 kg")
    expected = texts(answered, amount_cream="1 kg")
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["fat.percent"])
    expect(page.get_by_label("Batches")).to_have_value("none")
    page.get_by_label("Batches").fill("1")
    expect(page.locator("[data-problem=factor]")).to_have_text("")
    expect(page.get_by_label("Batches")).not_to_have_attribute("aria-invalid", "true")


def test_edits_made_while_it_starts_all_count(page: Page, address: str, answered: Callable[..., dict]) -> None:
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    page.get_by_label("Batches").fill("5")
    page.get_by_label("Cream").fill("2 kg")
    state = answered(factor="5")["state"]
    expected = answered(state, amount_cream="2 kg")
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["texts"]["fat.percent"], timeout=20_000)
    assert element(page).evaluate("element => element.state") == expected["state"]


def test_a_state_can_be_read_and_set_and_is_announced(page: Page, address: str, answered: Callable[..., dict]) -> None:
    page.goto(address)
    page.evaluate(
        "window.told = []; document.addEventListener('recipe-state', event => window.told.push(event.detail))"
    )
    page.get_by_label("Batches").fill("nonsense")
    expect(page.get_by_label("Batches")).to_have_attribute("aria-invalid", "true", timeout=20_000)
    element(page).evaluate("(element, state) => { element.state = state }", {"factor": "3"})
    expect(page.get_by_label("Batches")).to_have_value("3")
    expect(page.get_by_label("Batches")).not_to_have_attribute("aria-invalid", "true")
    element(page).locator("form").evaluate("form => form.reset()")
    expect(page.locator("[data-text='amount.sugar']")).to_have_text(texts(answered)["amount.sugar"])
    assert page.evaluate("window.told") == [
        {"state": {"factor": "3"}, "refused": {}, "cause": "set", "entry": 0},
        {"state": {}, "refused": {}, "cause": "set", "entry": 0},
    ]


def broken_site(small_site: tuple[Path, str], target: Path, name: str, spoil: Callable[[bytes], bytes | None]) -> Path:
    """A copy in which the runtime's files of that name are spoilt, or gone."""
    shutil.copytree(small_site[0], target)
    files = list(target.glob(f"assets/runtime/*/{name}"))
    assert files
    for file in files:
        content = spoil(file.read_bytes())
        if content is None:
            file.unlink()
        else:
            file.write_bytes(content)
    return target


def missing(_: bytes) -> None:
    return None


def cut_off(image: bytes) -> bytes:
    return image[:500_000]


def damaged(image: bytes) -> bytes:
    return image[:-1] + bytes([image[-1] ^ 1])  # The checksum of the heap.


@pytest.mark.parametrize(
    ("spoil", "next_time"),
    [
        pytest.param(missing, "memory.bin", marks=pytest.mark.full),
        pytest.param(cut_off, "memory.bin", marks=pytest.mark.full),
        (damaged, "packages.zip"),
    ],
)
def test_without_a_good_snapshot_the_ordinary_start_takes_over(
    page: Page, small_site: tuple[Path, str], serve: Callable[[Path], str], tmp_path: Path,
    answered: Callable[..., dict], spoil: Callable[[bytes], bytes | None], next_time: str, full: bool,
) -> None:  # fmt: skip
    page.goto(serve(broken_site(small_site, tmp_path / "site", "memory.bin", spoil)))
    with page.expect_request("**/packages.zip", timeout=60_000):
        page.get_by_label("Batches").fill("2")
    if not full:
        return  # How the ordinary start goes on, and what is remembered, is shown after a trap: test_trimmed.py.
    expected = texts(answered, factor="2")
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["fat.percent"], timeout=60_000)
    expect(element(page)).to_have_attribute("data-state", "live")
    # What came whole and failed is not tried again on this device; what did not come may come next time.
    page.reload()
    with page.expect_request(re.compile("memory.bin|packages.zip")) as request:
        page.get_by_label("Batches").focus()
    assert request.value.url.endswith(next_time)


def test_a_failure_of_another_build_counts_no_more(page: Page, address: str, fetched: list[str]) -> None:
    page.goto(address)
    page.evaluate("localStorage['crumbcoat:calculators:/:failed'] = '../../runtime/another/'")
    page.get_by_label("Batches").focus()
    expect(element(page)).to_have_attribute("data-state", LIVE)
    assert "memory.bin" in fetched


def no_web_assembly(file: bytes) -> bytes:
    """As long, or Python would seem to be still on its way."""
    return gzip.compress(random.Random(1).randbytes(len(file)))


@pytest.mark.parametrize(
    ("name", "spoil", "sentence"),
    [
        ("*.mjs", missing, "could not be loaded. The printed figures still hold. Change something again"),
        ("*.wasm", no_web_assembly, "could not start in this browser. The printed figures still hold."),
    ],
)
def test_a_runtime_that_cannot_start_leaves_the_printed_figures_and_says_so(
    page: Page, small_site: tuple[Path, str], serve: Callable[[Path], str], tmp_path: Path, name: str,
    spoil: Callable[[bytes], bytes | None], sentence: str,
) -> None:  # fmt: skip
    page.goto(serve(broken_site(small_site, tmp_path / "site", name, spoil)))
    page.get_by_label("Batches").fill("2")
    expect(element(page)).to_have_attribute("data-state", "failed", timeout=60_000)
    expect(page.locator("[data-progress]")).to_contain_text(sentence)
    expect(page.locator("[data-text='fat.percent']")).to_have_text("printed")
    expect(page.get_by_label("Batches")).to_have_value("2")


def test_files_that_did_not_come_are_fetched_at_the_next_change_and_no_change_is_lost(
    page: Page, address: str, answered: Callable[..., dict]
) -> None:
    """As without a network at the first touch."""
    page.route("**/runtime/**", lambda route: route.abort())
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    expect(page.locator("[data-progress]")).to_contain_text("could not be loaded. The printed figures still hold.")
    page.unroute("**/runtime/**")
    page.get_by_label("Cream").fill("1 kg")
    state = answered(factor="2")["state"]
    expected = answered(state, amount_cream="1 kg")
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["texts"]["fat.percent"])
    expect(page.locator("[data-text='amount.sugar']")).to_have_text(expected["texts"]["amount.sugar"])
    expect(page.locator("[data-progress]")).to_have_text("")


@pytest.mark.newcomer
def test_nothing_of_the_runtime_is_fetched_until_a_form_is_used_and_then_it_starts_by_itself(
    page: Page, address: str, fetched: list[str]
) -> None:
    for name in ("", "other/"):  # A first visit, and a second one that only reads.
        page.goto(address + name, wait_until="networkidle")
        page.evaluate("new Promise(done => requestIdleCallback(() => requestIdleCallback(done)))")
        page.mouse.wheel(0, 200)
        page.get_by_role("heading", level=1).click()
        expect(element(page)).to_have_attribute("data-state", "printed")
    assert fetched == []
    page.get_by_label("Batches").focus()
    expect(element(page)).to_have_attribute("data-state", LIVE)
    page.goto(address)
    expect(element(page)).to_have_attribute("data-state", LIVE)


@pytest.mark.newcomer
def test_it_never_starts_by_itself_where_data_is_saved(page: Page, address: str, fetched: list[str]) -> None:
    page.add_init_script("Object.defineProperty(navigator, 'connection', { value: { saveData: true } })")
    page.goto(address)
    page.get_by_label("Batches").focus()
    expect(element(page)).to_have_attribute("data-state", LIVE)
    fetched.clear()
    page.goto(address, wait_until="networkidle")
    page.evaluate("new Promise(done => requestIdleCallback(() => requestIdleCallback(done)))")
    assert fetched == []


@pytest.mark.newcomer
def test_a_start_that_hangs_gives_way_to_the_ordinary_one(page: Page, address: str, fetched: list[str]) -> None:
    hang = "if (data.start === 'snapshot') WebAssembly.instantiate = () => new Promise(() => {})"

    def hanging(route: Route) -> None:
        script = route.fetch().text()
        body = f"addEventListener('message', ({{ data }}) => {{ {hang} }});{script}"
        route.fulfill(body=body, content_type="text/javascript")

    page.route("**/worker.js", hanging)
    page.clock.install()
    page.goto(address)
    page.get_by_label("Batches").focus()
    page.wait_for_function(HAS_ALL_FILES)
    assert "packages.zip" not in fetched
    with page.expect_request("**/packages.zip"):
        page.clock.run_for(30_000)


@pytest.mark.newcomer
def test_an_answer_that_hangs_gives_way_to_the_ordinary_start(page: Page, address: str, fetched: list[str]) -> None:
    silent = "addEventListener('message', (event) => { if (event.data.id && way === 'snapshot') hang(event); });"
    hang = "const hang = (event) => event.stopImmediatePropagation();"
    way = "let way = ''; addEventListener('message', ({ data }) => { way = data.start ?? way; });"

    def hanging(route: Route) -> None:
        route.fulfill(body=f"{hang}{way}{silent}{route.fetch().text()}", content_type="text/javascript")

    page.route("**/worker.js", hanging)
    page.clock.install()
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    page.clock.run_for(1_000)  # Typing has come to rest.
    page.wait_for_function("document.querySelector('recipe-calculator').dataset.state === 'live'")
    assert "packages.zip" not in fetched
    with page.expect_request("**/packages.zip"):
        page.clock.run_for(40_000)


@pytest.mark.newcomer
def test_it_starts_where_the_device_keeps_nothing(page: Page, address: str) -> None:
    # As where a site's storage is blocked; the theme needs its own.
    page.add_init_script(
        """for (const name of ['getItem', 'setItem']) {
          const own = Storage.prototype[name];
          Storage.prototype[name] = function (key, ...rest) {
            if (key.startsWith('crumbcoat:')) throw new DOMException('blocked', 'SecurityError');
            return own.call(this, key, ...rest);
          };
        }"""
    )
    page.goto(address)
    expect(element(page)).to_have_attribute("data-state", "printed")
    page.get_by_label("Batches").focus()
    expect(element(page)).to_have_attribute("data-state", LIVE)


def test_progress_is_shown_in_bytes_while_it_loads(page: Page, address: str) -> None:
    held: list[Route] = []
    page.route("**/memory.bin", lambda route: held.append(route))
    page.goto(address)
    page.get_by_label("Batches").focus()
    progress = page.locator("[data-progress]")
    expect(progress).to_have_text(re.compile(r"^Loading the calculator: [\d,]+ of [\d,]+ kB$"), timeout=20_000)
    expect(element(page)).to_have_attribute("data-state", "starting")
    held[0].continue_()
    expect(element(page)).to_have_attribute("data-state", LIVE, timeout=20_000)
    expect(progress).to_have_text("")
