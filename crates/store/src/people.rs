//! People of a firm, their sessions and invitations. Words and tokens come in hashed: nothing
//! that opens a door is kept.

use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms};

/// A person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Id.
    pub id: String,
    /// Firm.
    pub firm: String,
    /// Name of the firm.
    pub firm_name: String,
    /// Name.
    pub name: String,
    /// Address to sign in with, lower case.
    pub email: String,
    /// `owner`, `designer`, `installer`, `reader`.
    pub role: String,
    /// Hash of the word, with its salt and cost.
    pub word: String,
}

/// An invitation, or a person from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Invitation<'a> {
    /// Firm.
    pub firm: &'a str,
    /// Name.
    pub name: &'a str,
    /// Address, lower case.
    pub email: &'a str,
    /// Role.
    pub role: &'a str,
    /// Who invites.
    pub made_by: &'a str,
    /// Until when, ms since 1970.
    pub ends: i64,
}

type PersonRow = (String, String, String, String, String, String, String);

fn person(r: PersonRow) -> Person {
    Person {
        id: r.0,
        firm: r.1,
        firm_name: r.2,
        name: r.3,
        email: r.4,
        role: r.5,
        word: r.6,
    }
}

impl Store {
    /// Makes a firm; one of this id stays as it is.
    ///
    /// # Errors
    /// The database.
    pub async fn make_firm(&self, id: &str, name: &str) -> Result<(), NotKept> {
        let sql = "insert into firm (id, name, made) values ($1, $2, $3) on conflict do nothing";
        within!(self, tx => {
            sqlx::query(sql).bind(id).bind(name).bind(now_ms()).execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Id of a firm by its name.
    ///
    /// # Errors
    /// The database.
    pub async fn firm_named(&self, name: &str) -> Result<Option<String>, NotKept> {
        let sql = "select id from firm where name = $1 order by made limit 1";
        let found: Option<(String,)> =
            on!(self, pool => sqlx::query_as(sql).bind(name).fetch_optional(pool).await)?;
        Ok(found.map(|f| f.0))
    }

    /// Takes a firm away with all its jobs and people.
    ///
    /// # Errors
    /// The database.
    pub async fn delete_firm(&self, firm: &str) -> Result<(), NotKept> {
        within!(self, tx => {
            sqlx::query("delete from firm where id = $1").bind(firm).execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Invites somebody. `hash` is that of the token in the link.
    ///
    /// # Errors
    /// Somebody has this address already; the database.
    pub async fn invite(&self, hash: &str, of: &Invitation<'_>) -> Result<(), NotKept> {
        if self.person_by_email(of.email).await?.is_some() {
            return Err(NotKept::Taken("person"));
        }
        const SQL: &str = "insert into invitation (hash, firm, name, email, role, made_by, ends) \
            values ($1, $2, $3, $4, $5, $6, $7)";
        within!(self, tx => {
            sqlx::query(SQL)
                .bind(hash).bind(of.firm).bind(of.name).bind(of.email).bind(of.role)
                .bind(of.made_by).bind(of.ends)
                .execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Uses an invitation up and makes the person.
    ///
    /// # Errors
    /// No such invitation, or its time is over; the database.
    pub async fn accept(&self, hash: &str, id: &str, word: &str) -> Result<Person, NotKept> {
        const FIND: &str = "select firm, name, email, role from invitation \
            where hash = $1 and ends > $2";
        const MAKE: &str = "insert into person (id, firm, name, email, role, word, made) \
            values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing";
        let now = now_ms();
        let email = within!(self, tx => {
            let found: Option<(String, String, String, String)> = sqlx::query_as(FIND)
                .bind(hash).bind(now).fetch_optional(&mut *tx).await?;
            let (firm, name, email, role) = found.ok_or(NotKept::NotThere("invitation"))?;
            let gone = sqlx::query("delete from invitation where hash = $1")
                .bind(hash).execute(&mut *tx).await?.rows_affected();
            let made = sqlx::query(MAKE)
                .bind(id).bind(&firm).bind(&name).bind(&email).bind(&role).bind(word).bind(now)
                .execute(&mut *tx).await?.rows_affected();
            // Two at once with one invitation: only one of them takes it.
            if gone == 0 || made == 0 {
                return Err(NotKept::Taken("person"));
            }
            email
        });
        let made = self.person_by_email(&email).await?;
        made.ok_or(NotKept::NotThere("person"))
    }

    /// Somebody by address.
    ///
    /// # Errors
    /// The database.
    pub async fn person_by_email(&self, email: &str) -> Result<Option<Person>, NotKept> {
        const SQL: &str = "select person.id, firm, firm.name, person.name, email, role, word \
            from person join firm on firm.id = person.firm where email = $1";
        let row: Option<PersonRow> =
            on!(self, pool => sqlx::query_as(SQL).bind(email).fetch_optional(pool).await)?;
        Ok(row.map(person))
    }

    /// People of a firm.
    ///
    /// # Errors
    /// The database.
    pub async fn people(&self, firm: &str) -> Result<Vec<Person>, NotKept> {
        const SQL: &str = "select person.id, firm, firm.name, person.name, email, role, word \
            from person join firm on firm.id = person.firm where firm = $1 order by email";
        let rows: Vec<PersonRow> =
            on!(self, pool => sqlx::query_as(SQL).bind(firm).fetch_all(pool).await)?;
        Ok(rows.into_iter().map(person).collect())
    }

    /// Gives somebody another role, or none: then the person is gone with all sessions. A firm
    /// keeps at least one owner.
    ///
    /// # Errors
    /// No such person; the last owner; the database.
    pub async fn set_role(&self, firm: &str, id: &str, role: Option<&str>) -> Result<(), NotKept> {
        const OWNERS: &str = "select id from person where firm = $1 and role = 'owner'";
        within!(self, tx => {
            let owners: Vec<(String,)> =
                sqlx::query_as(OWNERS).bind(firm).fetch_all(&mut *tx).await?;
            if owners.len() == 1 && owners.iter().any(|o| o.0 == id) && role != Some("owner") {
                return Err(NotKept::Bad("a firm keeps one owner at least".to_owned()));
            }
            let sql = if role.is_some() {
                "update person set role = $3 where firm = $1 and id = $2"
            } else {
                "delete from person where firm = $1 and id = $2 and $3 = ''"
            };
            let done = sqlx::query(sql)
                .bind(firm).bind(id).bind(role.unwrap_or(""))
                .execute(&mut *tx).await?;
            if done.rows_affected() == 0 {
                return Err(NotKept::NotThere("person"));
            }
        });
        Ok(())
    }

    /// Begins a session; sessions that are over go.
    ///
    /// # Errors
    /// The database.
    pub async fn begin_session(&self, hash: &str, person: &str, ends: i64) -> Result<(), NotKept> {
        let sql = "insert into session (hash, person, made, ends) values ($1, $2, $3, $4)";
        let now = now_ms();
        within!(self, tx => {
            sqlx::query("delete from session where ends < $1").bind(now).execute(&mut *tx).await?;
            sqlx::query(sql).bind(hash).bind(person).bind(now).bind(ends).execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Whose session it is.
    ///
    /// # Errors
    /// The database.
    pub async fn session(&self, hash: &str) -> Result<Option<Person>, NotKept> {
        const SQL: &str = "select person.id, firm, firm.name, person.name, email, role, word \
            from session join person on person.id = session.person \
            join firm on firm.id = person.firm where session.hash = $1 and session.ends > $2";
        let row: Option<PersonRow> = on!(self, pool => sqlx::query_as(SQL)
            .bind(hash).bind(now_ms()).fetch_optional(pool).await)?;
        Ok(row.map(person))
    }

    /// Ends a session.
    ///
    /// # Errors
    /// The database.
    pub async fn end_session(&self, hash: &str) -> Result<(), NotKept> {
        within!(self, tx => {
            sqlx::query("delete from session where hash = $1").bind(hash).execute(&mut *tx).await?;
        });
        Ok(())
    }
}
