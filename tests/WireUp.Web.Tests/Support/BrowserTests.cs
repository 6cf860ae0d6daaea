namespace WireUp.Web.Tests.Support;

/// <summary>Tests that share the one browser.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Browser>
{
    public const string Name = "browser";
}
