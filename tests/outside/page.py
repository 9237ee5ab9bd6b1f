"""The page of `furbelow watch` in a real browser: python page.py FURBELOW GARMENT

Needs the `playwright` package and a Chromium (Debian: `chromium`); without either it says so and is skipped.
Checked: pages shown, a saved word reloads one page and keeps the reader's place, a fault stands above the last good pages with
its line, a value is tried by keyboard alone, nothing is wider than a phone, every control has a name, nothing from elsewhere.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time


def skip(why):
    print(f"skipped: {why}")
    sys.exit(0)


try:
    from playwright.sync_api import sync_playwright
except ImportError:
    skip("the `playwright` package is not installed")
BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
if BROWSER is None:
    skip("no Chromium is installed")

program, garment = os.path.abspath(sys.argv[1]), sys.argv[2]
PATIENCE = 180_000  # milliseconds: machines differ, and nothing here is a measurement


def wait_for(what, check):
    until = time.monotonic() + PATIENCE / 1000
    while time.monotonic() < until:
        if check():
            return
        time.sleep(0.1)
    raise SystemExit(f"waited in vain: {what}")


def expect(what, good):
    if not good:
        raise SystemExit(f"not so: {what}")
    print(f"ok: {what}")


with tempfile.TemporaryDirectory() as home, sync_playwright() as play:
    folder = os.path.join(home, "garment")
    shutil.copytree(garment, folder)
    path = os.path.join(folder, "garment.yaml")
    first = open(path, encoding="utf-8").read()

    def save(text):
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)

    tool = subprocess.Popen([program, "watch", folder, "--port", "0"], stdout=subprocess.PIPE, text=True, cwd=home)
    try:
        address = re.search(r"http://\S+/", tool.stdout.readline()).group()
        browser = play.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1100, "height": 900})
        page.set_default_timeout(PATIENCE)
        complaints, asked = [], []
        page.on("console", lambda message: message.type == "error" and complaints.append(message.text))
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("request", lambda request: asked.append(request.url))
        page.goto(address)
        page.wait_for_function("() => document.querySelectorAll('#pages img').length > 3")
        page.wait_for_function("() => document.querySelector('#pages img').naturalWidth > 100")
        expect("the pages are shown", page.locator("#pages img").first.get_attribute("alt").startswith("Page 1 of"))

        # A word is saved: the reader stays where she is, and only pages that changed are fetched.
        page.evaluate("window.scrollTo(0, document.body.scrollHeight * 0.6)")
        page.wait_for_timeout(500)
        place = page.evaluate("window.scrollY")
        sources = "[...document.querySelectorAll('#pages img')].map(img => img.getAttribute('src'))"
        before = page.evaluate(sources)
        word = "Let the seam cool before you move it."
        expect("the garment has the sentence that is edited", first.count(word) == 1)
        save(first.replace(word, "Let it cool before you move it."))
        wait_for("the page reloads by itself", lambda: page.evaluate(sources) != before)
        after = page.evaluate(sources)
        expect("one page changed", sum(a != b for a, b in zip(before, after)) == 1 and len(before) == len(after))
        expect("the reader's place is kept", page.evaluate("window.scrollY") == place)

        # A fault stands above the last good pages, with file and line.
        broken = first.replace("drop: knee - 2 in", "drop: kneee - 2 in")
        line = next(at for at, text in enumerate(broken.splitlines(), 1) if "kneee" in text)
        save(broken)
        page.wait_for_selector("#fault-list li")
        words = page.locator("#fault-list").inner_text()
        expect("the fault has its file and line", f"garment.yaml:{line}:" in words and "kneee" in words)
        expect("the last good pages stay", page.evaluate(sources) == after)
        save(first)
        page.wait_for_selector("#fault-list li", state="detached")
        wait_for("the pages are the first ones again", lambda: page.evaluate(sources) == before)

        # Another edition, and back, by keyboard.
        page.focus("#edition")
        page.keyboard.press("ArrowDown")
        page.wait_for_function("() => document.querySelector('#pages img').getAttribute('src').startsWith('/page/size-')")
        expect("the size is switched by keyboard", True)

        # A value is tried, by keyboard alone.
        page.focus("#tab-pages")
        page.keyboard.press("ArrowRight")
        page.wait_for_selector("#figures .drawing img")
        page.wait_for_function("() => document.querySelector('#figures img').naturalWidth > 10")
        page.keyboard.press("ArrowRight")
        page.wait_for_selector("#table tbody tr")
        options = page.evaluate("[...document.querySelectorAll('#try-name option')].map(option => option.text)")
        page.select_option("#try-name", index=next(at for at, text in enumerate(options) if text.startswith("numbers.hem_depth")))
        page.focus("#try-value")
        page.keyboard.press("Control+A")
        page.keyboard.type("3 in")
        page.keyboard.press("Enter")
        page.wait_for_selector("#tried code")
        expect("the line to write is given", page.locator("#tried code").inner_text() == "hem_depth: 3 in")
        expect("the numbers of every size are told", "3 in (7.6 cm)" in page.locator("#tried").inner_text())
        expect("nothing was written", open(path, encoding="utf-8").read() == first)
        page.fill("#filter", "hem_depth")
        page.locator("#table tbody th button").first.press("Enter")
        page.wait_for_selector("dialog[open] li")
        expect("the working is shown", "hem_depth" in page.locator("#why-list").inner_text())
        page.keyboard.press("Escape")
        page.wait_for_selector("dialog[open]", state="detached")

        # Names for those who do not see it, and a phone.
        nameless = page.evaluate(
            "[...document.querySelectorAll('button, select, input, img')].filter(e => !(e.labels?.length || e.textContent.trim()"
            " || e.alt || e.ariaLabel)).map(e => e.outerHTML)"
        )
        expect(f"every control and picture has a name {nameless}", nameless == [])
        phone = browser.new_page(viewport={"width": 360, "height": 740})
        phone.set_default_timeout(PATIENCE)
        phone.goto(address)
        for view in ("pages", "figures", "numbers"):
            phone.wait_for_selector(f"#tab-{view}")
            phone.click(f"#tab-{view}")
            phone.wait_for_selector(f"#{view} *")
            phone.wait_for_timeout(500)
            wide = phone.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
            expect(f"{view} is no wider than a phone", wide <= 0)
        expect("nothing comes from elsewhere", all(url.startswith(address) for url in asked))
        expect(f"the browser complains of nothing {complaints}", complaints == [])
        browser.close()
    finally:
        tool.terminate()
        tool.wait()
