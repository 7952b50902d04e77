//! People: signing in and out, invitations, roles, and the trail of who did what.

use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{COOKIE, Caller, Right, Role, cookie};
use crate::given::{Given, Path, Query, line};
use crate::hashing;
use crate::refused::Refused;

const DAY_MS: i64 = 86_400_000;
/// How long a session lasts.
const SESSION_DAYS: i64 = 30;
/// How long an invitation lasts.
pub const INVITATION_DAYS: i64 = 7;

/// Who asks.
#[derive(Debug, Serialize, ToSchema)]
pub struct Me {
    /// People sign in on this server.
    pub sign_in: bool,
    /// Name; empty where nobody signs in.
    pub name: String,
    /// Address.
    pub email: String,
    /// Firm.
    pub firm: String,
    /// Role.
    pub role: Role,
    /// What it includes.
    pub rights: Vec<Right>,
}

/// Address and word.
#[derive(Debug, Deserialize, ToSchema)]
pub struct SignIn {
    /// Address.
    pub email: String,
    /// Word.
    pub password: String,
}

/// An invitation accepted.
#[derive(Debug, Deserialize, ToSchema)]
pub struct Accepted {
    /// Token of the invitation.
    pub token: String,
    /// Word, 10 letters at least.
    pub password: String,
}

/// Somebody to invite.
#[derive(Debug, Deserialize, ToSchema)]
pub struct Invite {
    /// Name.
    pub name: String,
    /// Address.
    pub email: String,
    /// Role.
    pub role: Role,
}

/// An invitation. The token is shown once; only its hash is kept.
#[derive(Debug, Serialize, ToSchema)]
pub struct Invited {
    /// Path to open on this server.
    pub path: String,
    /// Until when, RFC 3339.
    pub until: String,
}

/// Somebody of the firm.
#[derive(Debug, Serialize, ToSchema)]
pub struct PersonView {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Address.
    pub email: String,
    /// Role.
    pub role: String,
}

/// Another role.
#[derive(Debug, Deserialize, ToSchema)]
pub struct NewRole {
    /// Role.
    pub role: Role,
}

/// A line of the trail.
#[derive(Debug, Serialize, ToSchema)]
pub struct NotedView {
    /// Number.
    pub n: i64,
    /// When, RFC 3339.
    pub at: String,
    /// Who.
    pub who: String,
    /// What.
    pub what: String,
    /// Of what.
    pub place: String,
}

/// Which part of the trail.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Before {
    /// Only lines before this number.
    pub before: Option<i64>,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(me))
        .routes(routes!(sign_in))
        .routes(routes!(sign_out))
        .routes(routes!(accept))
        .routes(routes!(people))
        .routes(routes!(invite))
        .routes(routes!(set_role, remove))
        .routes(routes!(trail))
}

fn address(text: &str) -> Result<String, Refused> {
    let email = line(text, 200).to_lowercase();
    let good = email
        .split_once('@')
        .is_some_and(|(a, b)| !a.is_empty() && b.contains('.'));
    if !good || email.contains(char::is_whitespace) {
        return Err(Refused::bad("this is no address")
            .got(email)
            .allowed("name@firm.example"));
    }
    Ok(email)
}

/// Who asks
#[utoipa::path(get, path = "/api/me", tag = "people",
    responses((status = 200, body = Me), (status = "default", body = Refused)))]
async fn me(State(app): State<App>, caller: Caller) -> Json<Me> {
    let person = caller.person.as_ref();
    Json(Me {
        sign_in: app.sign_in,
        name: person.map_or(String::new(), |p| p.name.clone()),
        email: person.map_or(String::new(), |p| p.email.clone()),
        firm: person.map_or(String::new(), |p| p.firm_name.clone()),
        role: caller.role,
        rights: caller.role.rights().to_vec(),
    })
}

fn needs_people(app: &App) -> Result<(), Refused> {
    if app.sign_in {
        return Ok(());
    }
    Err(Refused::new(
        StatusCode::CONFLICT,
        "not-allowed",
        "nobody signs in on this server",
    )
    .mend("start it with --sign-in"))
}

/// A session begun, as a cookie no script can read.
async fn begun(app: &App, person: &store::Person) -> Result<Response, Refused> {
    let token = hashing::token()?;
    let ends = store::now_ms() + SESSION_DAYS * DAY_MS;
    app.store
        .begin_session(&hashing::of_token(&token), &person.id, ends)
        .await?;
    app.store
        .note(&person.firm, &person.name, "signed in", "")
        .await?;
    let role = Role::of(&person.role).unwrap_or(Role::Reader);
    let me = Me {
        sign_in: true,
        name: person.name.clone(),
        email: person.email.clone(),
        firm: person.firm_name.clone(),
        role,
        rights: role.rights().to_vec(),
    };
    let kept = format!(
        "{COOKIE}={token}; Path=/; Max-Age={}; HttpOnly; Secure; SameSite=Strict",
        SESSION_DAYS * 86_400
    );
    Ok(([(header::SET_COOKIE, kept)], Json(me)).into_response())
}

/// Signs in
#[utoipa::path(post, path = "/api/sign-in", tag = "people", request_body = SignIn,
    responses((status = 200, body = Me), (status = "default", body = Refused)))]
async fn sign_in(State(app): State<App>, Given(given): Given<SignIn>) -> Result<Response, Refused> {
    needs_people(&app)?;
    let email = address(&given.email)?;
    crate::pace::sign_in(&app.store, &email).await?;
    let person = app.store.person_by_email(&email).await?;
    let kept = person.as_ref().map(|p| p.word.clone());
    let word = given.password;
    let right = app
        .desk
        .apart(move || hashing::is_word(&word, kept.as_deref()))
        .await?;
    match person {
        Some(person) if right => begun(&app, &person).await,
        other => {
            if let Some(person) = other {
                app.store
                    .note(&person.firm, &person.email, "wrong word at sign-in", "")
                    .await?;
            }
            Err(Refused::new(
                StatusCode::UNAUTHORIZED,
                "sign-in",
                "address and word do not go together",
            ))
        }
    }
}

/// Signs out
#[utoipa::path(post, path = "/api/sign-out", tag = "people",
    responses((status = 204), (status = "default", body = Refused)))]
async fn sign_out(
    State(app): State<App>,
    caller: Caller,
    headers: HeaderMap,
) -> Result<Response, Refused> {
    if let Some(token) = cookie(&headers) {
        app.store.end_session(&hashing::of_token(token)).await?;
        let who = caller.who(None);
        app.store.note(&caller.firm, &who, "signed out", "").await?;
    }
    let gone = format!("{COOKIE}=; Path=/; Max-Age=0; HttpOnly; Secure; SameSite=Strict");
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, gone)]).into_response())
}

/// Accepts an invitation: from then on address and word open the door
#[utoipa::path(post, path = "/api/invited", tag = "people", request_body = Accepted,
    responses((status = 200, body = Me), (status = "default", body = Refused)))]
async fn accept(
    State(app): State<App>,
    Given(given): Given<Accepted>,
) -> Result<Response, Refused> {
    needs_people(&app)?;
    crate::pace::sign_in(&app.store, "an invitation").await?;
    let word = given.password;
    let kept = app.desk.apart(move || hashing::of_word(&word)).await??;
    let id = hashing::id()?;
    let hash = hashing::of_token(&given.token);
    let person = app.store.accept(&hash, &id, &kept).await?;
    begun(&app, &person).await
}

/// People of the firm
#[utoipa::path(get, path = "/api/people", tag = "people",
    responses((status = 200, body = Vec<PersonView>), (status = "default", body = Refused)))]
async fn people(State(app): State<App>, caller: Caller) -> Result<Json<Vec<PersonView>>, Refused> {
    caller.may(Right::Manage)?;
    let all = app.store.people(&caller.firm).await?;
    Ok(Json(
        all.into_iter()
            .map(|p| PersonView {
                id: p.id,
                name: p.name,
                email: p.email,
                role: p.role,
            })
            .collect(),
    ))
}

/// Invites somebody; the link is shown once, to be handed over
#[utoipa::path(post, path = "/api/people/invitations", tag = "people", request_body = Invite,
    responses((status = 201, body = Invited), (status = "default", body = Refused)))]
async fn invite(
    State(app): State<App>,
    caller: Caller,
    Given(given): Given<Invite>,
) -> Result<(StatusCode, Json<Invited>), Refused> {
    caller.may(Right::Manage)?;
    needs_people(&app)?;
    let invited = invited(
        &app.store,
        &caller.firm,
        (&given.name, &given.email, given.role),
        &caller.who(None),
    )
    .await?;
    Ok((StatusCode::CREATED, Json(invited)))
}

/// Makes an invitation: also from the command, for the first owner of a firm.
///
/// # Errors
/// An address that is none or is taken; the database.
pub async fn invited(
    store: &store::Store,
    firm: &str,
    (name, email, role): (&str, &str, Role),
    who: &str,
) -> Result<Invited, Refused> {
    let email = address(email)?;
    let name = line(name, 80);
    if name.is_empty() {
        return Err(Refused::bad("somebody who is invited has a name"));
    }
    let token = hashing::token()?;
    let ends = store::now_ms() + INVITATION_DAYS * DAY_MS;
    let of = store::Invitation {
        firm,
        name: &name,
        email: &email,
        role: role.word(),
        made_by: who,
        ends,
    };
    store.invite(&hashing::of_token(&token), &of).await?;
    let what = format!("invited as {}", role.word());
    store.note(firm, who, &what, &email).await?;
    Ok(Invited {
        path: format!("/invited/{token}"),
        until: store::written(ends),
    })
}

/// Gives somebody another role
#[utoipa::path(put, path = "/api/people/{id}", tag = "people", params(("id" = String, Path)),
    request_body = NewRole, responses((status = 204), (status = "default", body = Refused)))]
async fn set_role(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
    Given(given): Given<NewRole>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Manage)?;
    let word = given.role.word();
    app.store.set_role(&caller.firm, &id, Some(word)).await?;
    let what = format!("made {word}");
    app.store
        .note(&caller.firm, &caller.who(None), &what, &id)
        .await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Takes somebody out of the firm; all sessions end at once. What the person did stays
#[utoipa::path(delete, path = "/api/people/{id}", tag = "people", params(("id" = String, Path)),
    responses((status = 204), (status = "default", body = Refused)))]
async fn remove(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Manage)?;
    app.store.set_role(&caller.firm, &id, None).await?;
    app.store
        .note(
            &caller.firm,
            &caller.who(None),
            "taken out of the firm",
            &id,
        )
        .await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Who did what, newest first; what was changed in a job stands in its own history
#[utoipa::path(get, path = "/api/trail", tag = "people", params(Before),
    responses((status = 200, body = Vec<NotedView>), (status = "default", body = Refused)))]
async fn trail(
    State(app): State<App>,
    caller: Caller,
    Query(before): Query<Before>,
) -> Result<Json<Vec<NotedView>>, Refused> {
    caller.may(Right::Manage)?;
    let before = before.before.unwrap_or(i64::MAX);
    let all = app.store.trail(&caller.firm, before).await?;
    Ok(Json(
        all.into_iter()
            .map(|l| NotedView {
                n: l.n,
                at: store::written(l.at),
                who: l.who,
                what: l.what,
                place: l.place,
            })
            .collect(),
    ))
}
