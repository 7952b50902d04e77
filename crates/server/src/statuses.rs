//! The statuses an operation refuses with, each by name. Handlers say what they give when all is
//! well and what is theirs alone; what stands before and under all of them is said here once.

use utoipa::openapi::path::Operation;
use utoipa::openapi::{OpenApi, RefOr};

/// Puts names in the place of `default` in every operation.
pub fn named(api: &mut OpenApi) {
    for (path, item) in &mut api.paths.paths {
        let all = [
            ("get", &mut item.get),
            ("put", &mut item.put),
            ("post", &mut item.post),
            ("delete", &mut item.delete),
        ];
        for (method, operation) in all {
            if let Some(operation) = operation {
                name(path, method, operation);
            }
        }
    }
}

fn name(path: &str, method: &str, operation: &mut Operation) {
    let Some(form) = operation.responses.responses.remove("default") else {
        return;
    };
    for (status, says) in refusals(path, method, operation) {
        let mut refusal = form.clone();
        if let RefOr::T(r) = &mut refusal {
            says.clone_into(&mut r.description);
        }
        let there = &mut operation.responses.responses;
        there.entry(status.to_owned()).or_insert(refusal);
    }
}

fn refusals(path: &str, method: &str, operation: &Operation) -> Vec<(&'static str, &'static str)> {
    let body = match &operation.request_body {
        Some(RefOr::T(body)) => Some(body),
        _ => None,
    };
    let asks = body.is_some() || operation.parameters.as_ref().is_some_and(|p| !p.is_empty());
    let json = body.is_some_and(|b| b.content.contains_key("application/json"));
    let photo = body.is_some_and(|b| b.content.contains_key("image/jpeg"));
    let of_job = path.starts_with("/api/jobs/");
    let writes = method != "get" && !path.ends_with("/trial") && !path.ends_with("/bills/read");
    let nobody = ["/api/health", "/api/invited"].contains(&path) || path.starts_with("/api/shared");
    let all = [
        (asks, "400", "What came does not read or cannot be used"),
        (
            !nobody,
            "401",
            "Nobody is signed in, or the word is not right",
        ),
        (true, "403", "Not for this person, or sent by another site"),
        (
            path.contains('{') || path == "/api/invited",
            "404",
            "There is nothing of this name",
        ),
        (
            path == "/api/people/invitations"
                || path.ends_with("/year")
                || path.contains("/bands/why/")
                || path.contains("/papers/")
                || path.starts_with("/api/people/{")
                || (writes && path.starts_with("/api/jobs")),
            "409",
            "It stands otherwise than this needs: an id that is taken, a plan that waits",
        ),
        (body.is_some(), "413", "The body is too large"),
        (json || photo, "415", "The body is of another kind"),
        (true, "421", "The server does not go by this name"),
        (
            of_job || path.starts_with("/api/shared") || path == "/api/jobs",
            "422",
            "The job does not read, or its weather is not here",
        ),
        (true, "429", "Asked too often"),
        (true, "500", "A defect of the program or its database"),
        (
            true,
            "503",
            "Too many change the job at once, or the database is away",
        ),
        (writes, "507", "The disk has no room"),
    ];
    all.into_iter()
        .filter(|(so, ..)| *so)
        .map(|(_, status, says)| (status, says))
        .collect()
}
