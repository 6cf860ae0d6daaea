namespace WireUp.Layouts;

/// <summary>How much a problem of the file matters.</summary>
public enum ProblemSeverity
{
    /// <summary>The file does not describe a layout until this is mended.</summary>
    Error,

    /// <summary>The layout is read; the file probably does not say what was meant.</summary>
    Warning,
}

/// <summary>One kind of problem that a layout file can have.</summary>
/// <param name="Code">Stable code <c>WU1nnn</c>; never used again for something else.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Title">What is wrong, in a few words.</param>
/// <param name="Help">What to do about it, one sentence.</param>
public sealed record LayoutRule(string Code, ProblemSeverity Severity, string Title, string Help);
