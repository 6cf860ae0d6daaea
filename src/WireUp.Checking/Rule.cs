namespace WireUp.Checking;

/// <summary>One rule of the trade, with its code.</summary>
internal abstract class Rule
{
    /// <summary>What the rule is.</summary>
    internal abstract FindingDescriptor Descriptor { get; }

    /// <summary>Everything the rule has to say of a layout, in the order of the layout.</summary>
    internal abstract IEnumerable<Finding> Check(CheckContext context);

    /// <summary>A finding of this rule.</summary>
    /// <param name="message">One sentence: the problem, names in quotes, numbers with unit.</param>
    /// <param name="remedy">One action.</param>
    /// <param name="places">Where.</param>
    protected Finding Say(string message, string remedy, params IEnumerable<string> places) =>
        new(Descriptor.Code, Descriptor.Severity, message, remedy) { Places = [.. places] };
}

/// <summary>A descriptor that follows from a fact stated only once: who made the rule.</summary>
internal static class Describe
{
    internal static FindingDescriptor Practice(string code, Severity severity, string title) =>
        new(code, severity, title, FindingDescriptor.CommonPractice);

    internal static FindingDescriptor Physics(string code, Severity severity, string title) =>
        new(code, severity, title, "follows from what conducts; needs no authority");
}
