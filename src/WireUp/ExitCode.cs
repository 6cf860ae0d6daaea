namespace WireUp;

/// <summary>What the program tells the shell.</summary>
internal static class ExitCode
{
    /// <summary>All is well.</summary>
    public const int Fine = 0;

    /// <summary>Findings of severity error remain, or a plan is not finished.</summary>
    public const int Findings = 1;

    /// <summary>The input or the command line is wrong.</summary>
    public const int BadInput = 2;

    /// <summary>A defect of the program itself (EX_SOFTWARE of BSD's sysexits).</summary>
    public const int Defect = 70;

    /// <summary>Stopped by the person with Ctrl-C (128 + SIGINT).</summary>
    public const int Stopped = 130;
}
