//! Invalid headers: the server goes on, and the next message is answered.

use serde_json::{Value, json};

use super::client::Client;

/// A question that is no question of the server's: its answer is an error.
const UNKNOWN: &str = "textDocument/unheardOf";

fn started() -> Client {
    let folder = tempfile::tempdir().unwrap();
    Client::start(folder.path(), &json!({}), &Value::Null).0
}

#[test]
fn the_server_survives_any_header() {
    let mut client = started();
    let long = "x".repeat(1 << 20);
    let headers = [
        "Content-Length: 99999999999999\r\n\r\n",
        "Content-Length: 99999999999999\r\n\r\n{\"jsonrpc\":\"2.0\"}",
        "Content-Length: 18446744073709551616\r\n\r\n",
        "Content-Length: 2147483648\r\n\r\n",
        "Content-Length: 60000000\r\n\r\n",
        "Content-Length: -1\r\n\r\n",
        "Content-Length: many\r\n\r\n{}",
        "Content-Length:\r\n\r\n",
        "Content-Length: 0\r\n\r\n",
        "Content-Length: 5\r\nContent-Length: 7\r\n\r\n{}",
        "Content-Type: text\r\n\r\n{}",
        "\r\n\r\n\r\n",
        "garbage without an end",
        "\u{0}\u{1}\u{2}\r\n\r\n",
        &format!("X-Long: {long}\r\n\r\n"),
        &format!("{long}{long}"),
        &format!("Content-Length: 4\r\n\r\n{long}"),
    ];
    for header in headers {
        client.bytes(header.as_bytes());
        let shown = header.get(..60).unwrap_or(header);
        let answer = client.request(UNKNOWN, &json!({}));
        assert_eq!(answer.unwrap_err()["code"], -32601, "{shown:?}");
    }
    client.bytes(&[0xff, 0xfe, 0x00, 0x80, b'\n', 0xc0]);
    assert_eq!(client.request(UNKNOWN, &json!({})).unwrap_err()["code"], -32601);
    // Line feeds alone.
    let text = format!("{{\"jsonrpc\":\"2.0\",\"id\":4711,\"method\":\"{UNKNOWN}\"}}");
    client.bytes(format!("Content-Length: {}\n\n{text}", text.len()).as_bytes());
    assert_eq!(client.answer(4711).unwrap_err()["code"], -32601);
    assert_eq!(client.stop(), Some(0));
}

/// A length says what is to come; only what comes takes memory.
#[test]
fn a_length_takes_no_memory() {
    let mut client = started();
    let Some(before) = client.peak() else { return };
    client.bytes(b"Content-Length: 2000000000\r\n\r\n");
    assert!(client.request(UNKNOWN, &json!({})).is_err());
    // A message that is longer than any may be goes by in pieces.
    client.bytes(b"Content-Length: 104857600\r\n\r\n{\"jsonrpc\":\"");
    let piece = vec![b'x'; 1 << 20];
    for _ in 0..100 {
        client.bytes(&piece);
    }
    assert!(client.request(UNKNOWN, &json!({})).is_err());
    let taken = client.peak().unwrap() - before;
    assert!(taken < 20 << 20, "{taken} bytes");
    assert_eq!(client.stop(), Some(0));
}
