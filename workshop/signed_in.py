"""Who is signed in, found anew for each request: the session and the person, each asked for with SQL that is made once."""

from django.contrib.auth.backends import ModelBackend
from django.contrib.sessions.backends import db
from django.contrib.sessions.models import Session
from django.utils import timezone

from workshop.asked_often import RowsAskedOften
from workshop.models import Person

_session = RowsAskedOften(lambda key: Session.objects.filter(session_key=key))
_person = RowsAskedOften(lambda pk: Person.objects.filter(pk=pk))


class SessionStore(db.SessionStore):
    """Django's, in the database. The settings name this module, in which Django looks for a class of this name."""

    def _get_session_from_db(self) -> Session | None:
        found = next(iter(_session(self.session_key)), None)
        if found and found.expire_date > timezone.now():
            return found
        self._session_key = None
        return None


class ByPassword(ModelBackend):
    """Django's: a name and a password."""

    def get_user(self, user_id) -> Person | None:
        found = next(iter(_person(user_id)), None)
        return found if found and self.user_can_authenticate(found) else None
