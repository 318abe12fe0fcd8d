"""How soon the measuring page is usable on Chromium's slow 3G with a processor slowed four times; prints figures.

    python tests/benchmarks/measure_page.py http://127.0.0.1:8000      (a demo running there)
"""

import sys
import time

from playwright.sync_api import sync_playwright

#: Chromium's own preset “Slow 3G”: 400 kbit/s each way, 2 s a round.
SLOW_3G = {"offline": False, "latency": 2000, "downloadThroughput": 50_000, "uploadThroughput": 50_000}
READY = "[data-one-name]:not(:empty)"


def usable(page, url: str) -> float:
    begun = time.monotonic()
    page.goto(url, wait_until="commit", timeout=60_000)
    page.wait_for_selector(READY, timeout=60_000)
    page.click("[data-digit='3']")
    return time.monotonic() - begun


def main(base: str) -> None:
    sys.path.insert(0, ".")
    from workshop import machine

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=machine.find_chromium(), args=["--no-sandbox"])
        context = browser.new_context(base_url=base, viewport={"width": 390, "height": 844}, has_touch=True)
        page = context.new_page()
        page.goto("/sign-in/")
        page.fill("[name=name]", "dunya")
        page.fill("[name=password]", "tape and chalk, Dunya")
        page.click("button:has-text('Sign in')")
        page.goto("/clients/")
        url = page.locator(".client-rows a").first.get_attribute("href") + "measure/"
        cookies = context.cookies()
        for visit in range(2):
            fresh = browser.new_context(base_url=base, viewport={"width": 390, "height": 844}, has_touch=True)
            fresh.add_cookies(cookies)
            page = fresh.new_page()
            slow = fresh.new_cdp_session(page)
            slow.send("Emulation.setCPUThrottlingRate", {"rate": 4})
            slow.send("Network.enable")
            slow.send("Network.emulateNetworkConditions", SLOW_3G)
            first = usable(page, url)
            slow.send("Network.emulateNetworkConditions", SLOW_3G | {"latency": 0, "downloadThroughput": -1, "uploadThroughput": -1})
            page.wait_for_timeout(4000)  # the phone keeps the page meanwhile
            slow.send("Network.emulateNetworkConditions", SLOW_3G)
            print(f"visit {visit + 1}: first {first:.1f} s, again {usable(page, url):.2f} s")
            fresh.close()
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1])
