"""An owner at the desk: each page load, click, choice or thing typed is one action, counted from the start page."""

from playwright.sync_api import Page, TimeoutError


class Owner:
    """Somebody signed in as the owner, who counts what they do."""

    def __init__(self, page: Page, address: str) -> None:
        self.page, self.address, self.actions = page, address, 0

    def start(self) -> None:
        """Stand on the start page with nothing done."""
        self.page.goto(f"{self.address}/")
        self.actions = 0

    def click(self, words: str, exact: bool = False) -> None:
        """Follow a link or press a button by its words."""
        self.actions += 1
        found = self.page.get_by_role("link", name=words, exact=exact).or_(
            self.page.get_by_role("button", name=words, exact=exact)
        )
        found.first.click()
        self.page.wait_for_load_state()

    def type(self, label: str, words: str) -> None:
        """Type into a field."""
        self.actions += 1
        self.page.get_by_label(label).first.fill(words)

    def choose(self, label: str, words: str) -> None:
        """Choose from a list."""
        self.actions += 1
        self.page.get_by_label(label).first.select_option(words)

    def enter(self) -> None:
        """Send the form."""
        self.actions += 1
        # A load state asked for before the answer begins is the old page's.
        with self.page.expect_navigation():
            self.page.keyboard.press("Enter")

    def find(self, serial: str) -> None:
        """Type a serial on the start page and send it."""
        self.type("Serial", serial)
        self.enter()

    def reads(self, *words: str, patience_ms: int = 120_000) -> bool:
        """Tell whether all these words come to stand on the page."""
        there = "(words) => words.every((each) => document.querySelector('main')?.innerText.includes(each))"
        try:
            self.page.wait_for_function(there, arg=list(words), timeout=patience_ms)
        except TimeoutError:
            return False
        return True
