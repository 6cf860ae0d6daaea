namespace WireUp.Files;

/// <summary>Something the person gave cannot be used; the message says what and what would be right.</summary>
internal sealed class InputRefused(string message) : Exception(message);
