namespace WireUp.Testing;

/// <summary>
/// Programs from outside that some tests compare with. At home a missing one skips the test by name;
/// where <c>CI=true</c> it fails it, so that a comparison can never be lost unseen.
/// </summary>
internal static class OutsideTools
{
    /// <summary>The full path of the circuit simulator ngspice, or null where it is not installed.</summary>
    public static string? Ngspice { get; } = Find("ngspice");

    /// <summary>The full path of pdftotext (package poppler-utils), or null where it is not installed.</summary>
    public static string? PdfToText { get; } = Find("pdftotext");

    /// <summary>The full path of the browser Chromium, or null where it is not installed.</summary>
    public static string? Chromium { get; } = Find("chromium") ?? Find("chromium-browser");

    /// <summary>The path of ngspice; skips the running test, or fails it in CI, where there is none.</summary>
    public static string RequireNgspice() => Require(Ngspice, "ngspice");

    /// <summary>The path of pdftotext; skips the running test, or fails it in CI, where there is none.</summary>
    public static string RequirePdfToText() => Require(PdfToText, "pdftotext (poppler-utils)");

    /// <summary>The path of Chromium; skips the running test, or fails it in CI, where there is none.</summary>
    public static string RequireChromium() => Require(Chromium, "chromium");

    private static string Require(string? path, string name)
    {
        if (path is not null) return path;
        if (Environment.GetEnvironmentVariable("CI") is "true") Assert.Fail($"{name} is required in CI and is not on the PATH.");
        Assert.Skip($"{name} is not on the PATH: this comparison did not run.");
        return path!;
    }

    private static string? Find(string program)
    {
        var name = OperatingSystem.IsWindows() ? program + ".exe" : program;
        return (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(folder => Path.Combine(folder, name))
            .FirstOrDefault(File.Exists);
    }
}
