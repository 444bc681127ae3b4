"""A class with phones in Chromium: links of the handout, cards of two groups without a network, and their results."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.test_offline import ready

MILK = "milk-emulsions/everyday-milk-frosting/"
LIVE = 60_000


@pytest.fixture
def contexts(browser: Browser) -> Iterator[list[BrowserContext]]:
    """The teacher's and two phones, which know nothing of each other."""
    made = [browser.new_context(viewport={"width": width, "height": 844}) for width in (1280, 390, 390)]
    yield made
    for one in made:
        one.close()


def found_on_phone(phone: Page, link: str, weighs: str) -> str:
    """What a group does: its card, without a network from then on; gives the code for the teacher."""
    phone.goto(link)
    expect(phone.get_by_role("heading", name="Set everything out")).to_be_visible(timeout=LIVE)
    ready(phone, "everyday-milk-frosting")
    phone.context.set_offline(True)
    phone.reload()
    expect(phone.locator(".cc-bench .cc-amount").first).to_have_text(re.compile(r"^680\sg$"), timeout=LIVE)
    phone.get_by_role("button", name="Begin").click()
    expect(phone.locator(".cc-bench-clock")).to_have_text(re.compile(r"^In the plan of the class: 09:\d\d$"))
    while not phone.get_by_role("button", name="What we found").count():
        phone.get_by_role("button", name="Skip").click()
    phone.get_by_role("button", name="What we found").click()
    card = phone.locator(".cc-class-card")
    expect(phone.locator(".cc-bench")).to_have_count(0)
    phone.wait_for_load_state()
    if not card.get_by_label("The whole batch weighs").is_visible():
        card.locator("summary").click()
    card.get_by_label("The whole batch weighs").fill("much")
    card.get_by_role("button", name="Give to your teacher").click()
    expect(card.locator(".cc-class-said")).to_have_text("The whole batch weighs: write a number, such as 512.")
    card.get_by_label("The whole batch weighs").fill(weighs)
    card.get_by_label("Cup you weighed with").select_option("metric_cup")
    card.get_by_label("A level cup weighs").fill("182")
    card.get_by_label("Sweetness").fill("7, 8, 6")
    card.get_by_label("What else").fill("<img src=x onerror=alert(1)> held")
    phone.reload()  # What was typed stays on the phone.
    phone.locator(".cc-class-card > summary").click()
    expect(card.get_by_label("The whole batch weighs")).to_have_value(weighs)
    card.get_by_role("button", name="Give to your teacher").click()
    return card.locator(".cc-class-code").text_content() or ""


def test_a_class_cooks_with_phones_and_its_results_come_back(
    site: tuple[Path, str], contexts: list[BrowserContext], tmp_path: Path
) -> None:
    teacher, first, third = [context.new_page() for context in contexts]
    sent: list[str] = []
    for phone in (first, third):
        phone.on("request", lambda request: sent.append(request.method))
    teacher.goto(f"{site[1]}{MILK}handout/")
    teacher.get_by_label("Batches a group").fill("2")
    expect(teacher.locator(".cc-phones [data-part=makes]").first).to_contain_text("2 batches", timeout=LIVE)
    teacher.locator(".cc-phones > summary").click()
    links = teacher.locator("a.cc-phone-link")
    expect(links.first).to_have_attribute("href", re.compile("#bench&factor=2&class:group=1&class:at="))
    expect(teacher.locator(".cc-phone svg.cc-code")).to_have_count(4)
    addresses = links.evaluate_all("links => links.map(({ href }) => href)")
    codes = [found_on_phone(first, addresses[0], "1250"), found_on_phone(third, addresses[2], "1290")]
    assert {*sent} == {"GET"}  # Nothing was sent from a phone.
    assert "class" not in first.url

    field = teacher.get_by_label("Codes of the groups")
    file = tmp_path / "group-3.txt"
    file.write_text(codes[1], encoding="utf-8")
    field.fill(codes[0] + "\n" + codes[1].replace("1290", "1920"))
    expect(teacher.locator(".cc-unusable tbody")).to_contain_text("of group 3it was changed on the way", timeout=LIVE)
    teacher.get_by_label("Files of the groups").set_input_files(file)
    rows = teacher.locator(".cc-result [data-part=table] tr")
    expect(rows).to_have_count(5)
    assert rows.nth(2).locator("td").first.text_content() == "1\u202f270.0"
    assert rows.nth(3).locator("td").first.text_content() == "28.3"  # statistics.stdev([1250, 1290]) is 28.28.
    expect(teacher.locator(".cc-result [data-part=notes] td").first).to_have_text("<img src=x onerror=alert(1)> held")
    expect(teacher.locator(".cc-result-pictures svg")).to_have_count(2)
    with teacher.expect_download() as saved:
        teacher.get_by_role("button", name="Save", exact=True).first.click()
    assert saved.value.suggested_filename == "1-group1.yaml"
    assert "mass: 625 g" in Path(saved.value.path()).read_text(encoding="utf-8")


def test_a_damaged_link_says_so_and_a_group_can_be_left(page: Page, site: tuple[Path, str]) -> None:
    page.goto(f"{site[1]}{MILK}#bench&class:group=none")
    expect(page.locator(".cc-message").first).to_contain_text("what it says of the class is damaged")
    expect(page.locator(".cc-class-card")).to_have_count(0)
    page.goto("about:blank")
    page.goto(f"{site[1]}{MILK}#bench&class:group=2")
    expect(page.locator(".cc-bench-where")).to_have_text("Group 2: Before you begin")
    page.get_by_role("button", name="Leave bench view").click()
    page.locator(".cc-class-card > summary").click()
    page.get_by_role("button", name="Leave the group").click()
    expect(page.locator(".cc-class-card")).to_have_count(0)
    page.reload()
    expect(page.locator(".cc-class-card")).to_have_count(0)
