"""The rules find what the HTML Living Standard forbids, and let pass what it allows."""

import pytest

from .html_rules import problems_in


@pytest.mark.parametrize(
    "html",
    [
        "<p>text <b>bold</b> <span><small>x</small></span></p>",
        "<ul><li><p>one</p><ol><li>two</li></ol></li></ul>",
        "<dl><div><dt>a</dt><dd>b</dd></div></dl>",
        "<table><caption>c</caption><thead><tr><td></td></tr></thead><tbody><tr><th>a</th></tr></tbody></table>",
        "<label>a <input type='checkbox'></label><select><optgroup label='g'><option>o</option></optgroup></select>",
        "<details><summary>s</summary><p>x</p></details><fieldset><legend>l</legend><p>x</p></fieldset>",
        "<svg><path d=''/><text>t</text></svg><p id='a'>x</p><p aria-labelledby='a'>y</p>",
        "<a href=''><span>block link</span></a><button type='button'><b>x</b></button>",
    ],
)
def test_what_is_allowed_passes(html: str) -> None:
    assert problems_in(html) == []


@pytest.mark.parametrize(
    ("html", "problem"),
    [
        ("<p><div>x</div></p>", "<div> in <p>"),
        ("<span><ul><li>x</li></ul></span>", "<ul> in <span>"),
        ("<ul><p>x</p></ul>", "<p> in <ul>"),
        ("<ul>text</ul>", "text 'text' in <ul>"),
        ("<div><li>x</li></div>", "<li> in <div>"),
        ("<table><tr><td>x</td></tr></table>", "<tr> in <table>"),
        ("<table><tbody></tbody><caption>c</caption></table>", "<caption> is not the first of <table>"),
        ("<a href=''><button type='button'>x</button></a>", "<button> in <a>"),
        ("<label><input><input></label>", "a label with ['input', 'input']"),
        ("<img src='x'>", "an image without alt"),
        ("<button>x</button>", "a button without a type"),
        ("<input type='colour'>", "an input of type 'colour'"),
        ("<center>x</center>", "unknown element <center>"),
        ("<p id='a'>x</p><p id='a'>y</p>", "id 'a' is used 2 times"),
        ("<p aria-describedby='b'>x</p>", "aria-describedby='b' refers to nothing"),
        ("<form><div><form></form></div></form>", "a form in a form"),
    ],
)
def test_what_is_forbidden_is_found(html: str, problem: str) -> None:
    assert problem in problems_in(html)


def test_an_end_tag_that_does_not_match_is_found() -> None:
    with pytest.raises(AssertionError, match="</div> closes <p>"):
        problems_in("<div><p>x</div>")
