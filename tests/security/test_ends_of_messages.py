"""Where one request ends and the next begins is said in one way only: a request that says it in two is not served."""

import socket
from collections.abc import Iterator

import pytest

from tests.browser.serving import free_port, served
from tests.security.conftest import open_shop

CHUNKED = "Transfer-Encoding: chunked\r\n"
SMUGGLED = "0\r\n\r\nGET /livez HTTP/1.1\r\nHost: localhost\r\n\r\n"
TWICE = {
    "a length and chunks": f"Content-Length: 4\r\n{CHUNKED}",
    "chunks and a length": f"{CHUNKED}Content-Length: 4\r\n",
    "two lengths": "Content-Length: 4\r\nContent-Length: 60\r\n",
    "a length that is none": "Content-Length: +4\r\n",
    "chunks of another kind": "Transfer-Encoding: xchunked\r\n",
    "a space before the colon": "Transfer-Encoding : chunked\r\n",
}


@pytest.fixture(scope="module")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """The real server on a port of this machine."""
    folder, found = tmp_path_factory.mktemp("shop"), free_port()
    _, record = open_shop(folder)
    with served(record, folder, found):
        yield found
    record.close()


def told(port: int, headers: str, body: str) -> bytes:
    """Give what was answered until the second answer began or the line was cut."""
    with socket.create_connection(("127.0.0.1", port), timeout=60) as line:
        line.sendall(f"POST /livez HTTP/1.1\r\nHost: localhost\r\n{headers}\r\n{body}".encode())
        got = b""
        while got.count(b"HTTP/1.1 ") < 2 and (part := line.recv(65536)):
            got += part
    return got


@pytest.mark.parametrize("how", TWICE)
def test_two_ends_are_one_refusal(port: int, how: str):
    """Whatever a second end would smuggle in is not served: one answer at most, and it is 400 or the line is cut."""
    got = told(port, TWICE[how], SMUGGLED)
    assert got.count(b"HTTP/1.1 ") <= 1
    assert not got or got.startswith(b"HTTP/1.1 400")


def test_one_end_is_served(port: int):
    """Control: with one end said once, both requests on the line are answered."""
    got = told(port, "Content-Length: 0\r\n", "GET /livez HTTP/1.1\r\nHost: localhost\r\n\r\n")
    assert got.count(b"HTTP/1.1 ") == 2
