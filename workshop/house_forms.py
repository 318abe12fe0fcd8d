"""The forms of the workshop's own pages: signing in, setting up, settings, people."""

from django import forms
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.utils.html import format_html

from workshop import people
from workshop.days import LANGUAGES
from workshop.forms import PlainForm, PlainModelForm, PlainWords
from workshop.house_rules import HOUSE_RULES, BadRule
from workshop.models import Person, Workshop
from workshop.money import CURRENCIES


def sign_in_name_field(**kwargs) -> forms.CharField:
    return forms.CharField(
        label="Sign-in name",
        max_length=60,
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"}),
        **kwargs,
    )


def password_field(label: str, *, new: bool, **kwargs) -> forms.CharField:
    return forms.CharField(
        label=label,
        strip=False,
        max_length=200,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password" if new else "current-password"}),
        **kwargs,
    )


def plain_name(typed: str) -> str:
    """A sign-in name as it is kept: a phone's capital letter makes no difference."""
    return Person.normalize_username(typed.strip()).casefold()


class SignInForm(PlainForm):
    name = sign_in_name_field()
    password = password_field("Password", new=False)

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["name"].widget.attrs["autofocus"] = True

    def clean_name(self) -> str:
        return plain_name(self.cleaned_data["name"])


class NewPassword(forms.Form):
    """Twice the same new password, of twelve characters or more."""

    password = password_field("Password", new=True, help_text="12 characters or more. A few words in a row are good.")
    again = password_field("The same password again", new=True)

    def password_for(self) -> Person:
        """The person whom the password must not resemble."""
        return Person(
            username=self.cleaned_data.get("name", ""), display_name=self.cleaned_data.get("display_name", "")
        )

    def clean(self):
        cleaned = super().clean()
        password, again = cleaned.get("password"), cleaned.get("again")
        if password and again and password != again:
            self.add_error("again", ValidationError("The two passwords differ. Type both once more.", code="differ"))
        elif password:
            try:
                validate_password(password, self.password_for())
            except ValidationError as refusal:
                self.add_error("password", ValidationError(_plain_refusal(refusal), code="weak"))
        return cleaned


def _plain_refusal(refusal: ValidationError) -> str:
    says = {
        "password_too_short": "It has fewer than 12 characters. Make it longer.",
        "password_too_common": "It is on the list of passwords that are tried first. Choose another.",
        "password_too_similar": "It is too much like the name. Choose another.",
        "password_entirely_numeric": "It is all figures. Add letters.",
    }
    return " ".join(says.get(error.code, error.messages[0]) for error in refusal.error_list)


class SignInNameOnce:
    """Refuses a sign-in name that somebody has."""

    def clean_name(self) -> str:
        name = plain_name(self.cleaned_data["name"])
        if not name.isprintable() or " " in name:
            raise ValidationError("A sign-in name has no spaces. Write it in one word.", code="spaces")
        taken = Person.objects.filter(username=name)
        if getattr(self, "person", None):
            taken = taken.exclude(pk=self.person.pk)
        if taken.exists():
            raise ValidationError(f"“{name}” is somebody's sign-in name already. Choose another.", code="taken")
        return name


UNIT = dict(choices=Workshop.UNITS, widget=forms.RadioSelect, label="Lengths in")
PAPER = dict(choices=Workshop.PAPERS, widget=forms.RadioSelect, label="Paper for job sheets")
CURRENCY = dict(choices=[(c.code, f"{c.name}, {c.code}") for c in CURRENCIES.values()], label="Currency")


DAYS_IN = dict(choices=LANGUAGES, label="Days and months in", required=False, help_text="On pages, sheets and in texts. All other words stay English.")


class SetUpForm(SignInNameOnce, PlainWords, NewPassword):
    """The first page of a new workshop: the workshop, and the owner's sign-in."""

    workshop_name = forms.CharField(label="Name of the workshop", max_length=80)
    town = forms.CharField(label="Town", max_length=80, required=False, help_text="May stay empty.")
    unit = forms.ChoiceField(**UNIT)
    currency = forms.ChoiceField(**CURRENCY)
    paper = forms.ChoiceField(**PAPER)
    display_name = forms.CharField(
        label="Your name",
        max_length=60,
        help_text="As the others in the room say it.",
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
    )
    name = sign_in_name_field(help_text="One word, to sign in with.")
    field_order = ["workshop_name", "town", "unit", "currency", "paper", "display_name", "name", "password", "again"]


class SettingsForm(PlainModelForm):
    """The workshop's name, units, currency and paper, and its house rules."""

    unit = forms.ChoiceField(**UNIT)
    currency = forms.ChoiceField(**CURRENCY)
    paper = forms.ChoiceField(**PAPER)
    days_in = forms.ChoiceField(**DAYS_IN)
    good_for_days = forms.IntegerField(
        label="Measures are good for, days",
        required=False,
        help_text="Blank: 90. Older ones are marked. Limits 7 to 730.",
        widget=forms.TextInput(attrs={"inputmode": "numeric", "class": "short", "autocomplete": "off"}),
        error_messages={"invalid": "I can't read that as a number of days. Write it in figures: 90."},
    )

    class Meta:
        model = Workshop
        fields = ["name", "town", "unit", "currency", "paper", "days_in", "good_for_days", "sixteenths"]
        labels = {"name": "Name of the workshop", "town": "Town", "sixteenths": "Sixteenths on the keys for measuring"}
        help_texts = {"sixteenths": "Else eighths; each phone may have its own key for sixteenths all the same."}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        unit = self.data.get("unit") if self.data.get("unit") in dict(Workshop.UNITS) else self.instance.unit
        for rule in HOUSE_RULES:
            self.fields[f"rule_{rule.key}"] = forms.CharField(
                label=rule.title,
                required=False,
                max_length=60,
                initial=self.instance.house_rules.get(rule.key, ""),
                help_text=rule.help_text(unit),
                widget=forms.TextInput(attrs={"autocomplete": "off", "class": "short"}),
            )

    def clean_days_in(self) -> str:
        return self.cleaned_data["days_in"] or self.instance.days_in

    def clean_good_for_days(self) -> int:
        days = self.cleaned_data["good_for_days"]
        if days is None:
            return 90
        if not 7 <= days <= 730:
            raise ValidationError(f"“{days}” is outside 7 to 730 days. The usual is 90.", code="days")
        return days

    def rule_groups(self) -> list[tuple[str, list]]:
        """The rules' fields under their headings, in order."""
        groups: dict[str, list] = {}
        for rule in HOUSE_RULES:
            groups.setdefault(rule.group, []).append(self[f"rule_{rule.key}"])
        return list(groups.items())

    def clean(self):
        cleaned = super().clean()
        unit = cleaned.get("unit", self.instance.unit)
        for rule in HOUSE_RULES:
            try:
                cleaned[f"rule_{rule.key}"] = rule.check(cleaned.get(f"rule_{rule.key}") or "", unit)
            except BadRule as refusal:
                self.add_error(f"rule_{rule.key}", ValidationError(str(refusal), code="rule"))
        return cleaned

    def kept_rules(self) -> dict[str, str]:
        """The rules that are set, as written. Those left blank are not kept at all."""
        written = {rule.key: self.cleaned_data[f"rule_{rule.key}"] for rule in HOUSE_RULES}
        return {key: text for key, text in written.items() if text}


ROLE = dict(
    choices=[
        (role, format_html("<span><b>{}</b><br>{}</span>", title.capitalize(), people.ROLE_MEANS[role]))
        for role, title in people.ROLES
    ],
    widget=forms.RadioSelect,
    label="Role",
)


class AddPersonForm(SignInNameOnce, PlainWords, NewPassword):
    """A new person with a role and a first password."""

    display_name = forms.CharField(label="Name", max_length=60)
    name = sign_in_name_field(help_text="One word, to sign in with.")
    role = forms.ChoiceField(**ROLE)
    field_order = ["display_name", "name", "role", "password", "again"]


class PersonForm(PlainModelForm):
    """A person's name and role. Somebody must stay who can run the workshop."""

    role = forms.ChoiceField(**ROLE)

    class Meta:
        model = Person
        fields = ["display_name", "role"]
        labels = {"display_name": "Name"}

    def clean_role(self) -> str:
        role = self.cleaned_data["role"]
        if role != people.OWNER and Person.objects.get(pk=self.instance.pk).is_last_owner():
            raise ValidationError(
                f"{self.instance} is the only owner. Make somebody else an owner first.", code="last-owner"
            )
        return role


class GivePasswordForm(PlainWords, NewPassword):
    """The owner gives somebody a new password."""

    def __init__(self, *args, person: Person, **kwargs):
        self.person = person
        super().__init__(*args, **kwargs)

    def password_for(self) -> Person:
        return self.person


class OwnPasswordForm(GivePasswordForm):
    """One's own new password, after the old one."""

    old = password_field("Your password until now", new=False)
    field_order = ["old", "password", "again"]

    def clean_old(self) -> str:
        old = self.cleaned_data["old"]
        if not self.person.check_password(old):
            raise ValidationError("That is not your password. Type it once more.", code="wrong")
        return old


class OwnHandForm(PlainModelForm):
    """Which hand holds the phone while the other holds the tape."""

    class Meta:
        model = Person
        fields = ["left_handed"]
        labels = {"left_handed": "Left-handed keys when measuring"}
