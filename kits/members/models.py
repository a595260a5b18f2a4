"""The people, and what each of them may do."""

from __future__ import annotations

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models.functions import Lower

__all__ = ["Person", "PersonManager", "PersonRole", "Role"]


class PersonManager(BaseUserManager["Person"]):
    def create_user(self, *, email: str, name: str = "", password: str | None = None) -> Person:
        """Create a person; without a password nobody can sign in as them.

        Raises: ValidationError if the address is no e-mail address or is taken, in whatever letters.
        """
        person = self.model(email=email, name=name)
        person.set_password(password)
        person.full_clean()
        person.save(using=self._db)
        return person

    def get_by_natural_key(self, username: str | None) -> Person:
        """Find the person by the address as it was typed at sign-in."""
        return super().get_by_natural_key(username and Person.normalize_username(username))


class Person(AbstractBaseUser):
    """Somebody who can sign in, by e-mail address: the user model of the project, from its first migration on."""

    # Kept in lower case: two accounts that differ in case only would share one letter box.
    email = models.EmailField(
        unique=True, error_messages={"unique": "There is already a person with this e-mail address."}
    )
    name = models.CharField(max_length=200, blank=True)
    is_active = models.BooleanField(default=True)

    objects = PersonManager()

    USERNAME_FIELD = "email"
    EMAIL_FIELD = "email"

    class Meta:
        verbose_name_plural = "people"
        constraints = [
            models.CheckConstraint(condition=models.Q(email=Lower("email")), name="person_email_in_lower_case"),
        ]

    def __str__(self) -> str:
        return self.name or self.email

    @classmethod
    def normalize_username(cls, username: str) -> str:
        return super().normalize_username(username.strip()).lower()


class Role(models.TextChoices):
    """What a person does for the kits; one person may have several."""

    PLANNER = "planner", "planner"
    EDITOR = "editor", "technical editor"
    CARE = "care", "member care"
    STOCK = "stock", "stock"
    MEMBER = "member", "member"


class PersonRole(models.Model):
    """A role that a person has or had: withdrawn, the row stays, so that who could do what is known later too."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="roles")
    role = models.CharField(max_length=10, choices=Role.choices)
    granted_at = models.DateTimeField()
    granted_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, related_name="+")
    withdrawn_at = models.DateTimeField(null=True)
    withdrawn_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["person", "role"],
                condition=models.Q(withdrawn_at__isnull=True),
                name="person_role_held_once",
            ),
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="person_role_is_known"),
            models.CheckConstraint(
                condition=models.Q(withdrawn_by__isnull=True) | models.Q(withdrawn_at__isnull=False),
                name="person_role_withdrawn_at_some_time",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person} as {self.get_role_display()}"
