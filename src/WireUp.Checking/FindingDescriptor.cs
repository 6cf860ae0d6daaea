namespace WireUp.Checking;

/// <summary>What one rule is: the head of its page in docs/findings.</summary>
/// <param name="Code">Stable code; never used again for something else.</param>
/// <param name="Severity">How serious its findings are at most; some are milder when a limit is only just missed.</param>
/// <param name="Title">The problem in a few words.</param>
/// <param name="Source">The published source of the rule, or that it is common practice without one.</param>
public sealed record FindingDescriptor(string Code, Severity Severity, string Title, string Source)
{
    /// <summary>What stands as source where nobody has published the rule.</summary>
    public const string CommonPractice = "common practice, no published source";
}
