namespace WireUp.Testing;

/// <summary>
/// Compares a text with a committed file beside the tests. To accept a change on purpose, look at the received file, then copy
/// it over the approved one.
/// </summary>
internal static class ApprovedText
{
    public static void Matches(string received, string fileName, string folder)
    {
        string approved = RepoFiles.PathOf($"{folder}/{fileName}");
        string expected = File.Exists(approved) ? File.ReadAllText(approved).ReplaceLineEndings("\n") : string.Empty;
        if (received == expected) return;
        string beside = Path.Combine(AppContext.BaseDirectory, $"received-{fileName}");
        File.WriteAllText(beside, received);
        Assert.Fail($"{fileName} is not as approved; what was received lies in {beside}");
    }
}
