"""A bad link between tablet and record: requests that never arrive, answers that never come back."""

from playwright.sync_api import BrowserContext, Route


class Link:
    """Stands on the way of deliveries; `cut` lets nothing through, `lose_answers` lets so many be taken unanswered."""

    def __init__(self, context: BrowserContext) -> None:
        self.cut = False
        self.lose_answers = 0
        self.sent = 0
        context.route("**/api/deliveries", self._pass)

    def _pass(self, route: Route) -> None:
        self.sent += 1
        if self.cut:
            route.abort("internetdisconnected")
        elif self.lose_answers > 0:
            self.lose_answers -= 1
            route.fetch()
            route.abort("connectionreset")
        else:
            route.continue_()
