namespace WireUp.Web.Drafting;

/// <summary>One change of a text: at a place, some characters taken out and others put in. It can be made and taken back.</summary>
/// <param name="At">Characters of the text before it.</param>
/// <param name="Taken">What stood there.</param>
/// <param name="Put">What stands there now.</param>
internal readonly record struct TextChange(int At, string Taken, string Put)
{
    /// <summary>The change from one text to another: all between what both begin and end with.</summary>
    public static TextChange Between(string before, string after)
    {
        int start = before.AsSpan().CommonPrefixLength(after);
        int most = Math.Min(before.Length, after.Length) - start;
        int end = 0;
        while (end < most && before[^(end + 1)] == after[^(end + 1)]) end++;

        // Never through the middle of a character that takes two: its halves would be no text of their own.
        if (start > 0 && char.IsHighSurrogate(before[start - 1])) start--;
        if (end > 0 && char.IsLowSurrogate(before[^end])) end--;
        return new(start, before[start..^end], after[start..^end]);
    }

    /// <summary>The text with the change made; null where it does not fit the text.</summary>
    public string? Make(string text) => Swap(text, Taken, Put);

    /// <summary>The text with the change taken back; null where it does not fit the text.</summary>
    public string? TakeBack(string text) => Swap(text, Put, Taken);

    private string? Swap(string text, string there, string instead) =>
        At >= 0 && At + there.Length <= text.Length && text.AsSpan(At, there.Length).SequenceEqual(there)
            ? string.Concat(text.AsSpan(0, At), instead, text.AsSpan(At + there.Length))
            : null;
}
