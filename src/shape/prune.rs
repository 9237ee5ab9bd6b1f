//! Leaving out the parts of a tree that have faults.

use crate::fault::Span;
use crate::source::{Node, NodeKind};

/// Removes the entry or list item that a span is the key or the value of; what went already with a part
/// around it stays gone. False where the span is the whole tree.
pub(super) fn prune(node: &mut Node, span: Span, left_out: &mut Vec<String>) -> bool {
    if node.span == span {
        return false;
    }
    match &mut node.kind {
        NodeKind::Map(entries) => {
            if let Some(at) = entries.iter().position(|entry| entry.key_span == span || entry.value.span == span) {
                // `edition: 1.0` is read as a number; read as text it may do.
                let at_value = entries[at].value.span == span;
                if let NodeKind::Scalar { plain: plain @ true, .. } = &mut entries[at].value.kind
                    && at_value
                {
                    *plain = false;
                    return true;
                }
                left_out.push(entries.remove(at).key);
                return true;
            }
            match entries.iter_mut().find(|entry| entry.value.span.holds(span)) {
                Some(entry) => prune(&mut entry.value, span, left_out),
                None => true,
            }
        }
        NodeKind::List(list) => {
            if let Some(at) = list.iter().position(|item| item.span == span) {
                let item = list.remove(at);
                left_out.extend(item.get("id").and_then(Node::text).map(ToString::to_string));
                return true;
            }
            match list.iter_mut().find(|item| item.span.holds(span)) {
                Some(item) => prune(item, span, left_out),
                None => true,
            }
        }
        // Gone already, with a part around it.
        NodeKind::Scalar { .. } => true,
    }
}
